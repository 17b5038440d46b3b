/**
 * Pictures of connector end faces: reading them safely, finding the cladding's edge and with it the
 * scale, and finding flaws. What a flaw means is core's to say. Pixel places count from the centre
 * of the top left pixel, x to the right, y down.
 */
@NullMarked
package ferrule.vision;

import org.jspecify.annotations.NullMarked;
