/**
 * Light in fibre: levels, losses, wavelengths, fibre categories, and the coupling physics that
 * tells one cause of loss from another. Knows nothing of links, standards or jobs.
 */
@NullMarked
package ferrule.core.optics;

import org.jspecify.annotations.NullMarked;
