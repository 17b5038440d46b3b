/** Doubts that follow from one fibre alone. */
@NullMarked
package ferrule.core.trust.single;

import org.jspecify.annotations.NullMarked;
