/** Connector end faces: the pictures handed in, and later their zones, criteria and grading. */
@NullMarked
package ferrule.core.face;

import org.jspecify.annotations.NullMarked;
