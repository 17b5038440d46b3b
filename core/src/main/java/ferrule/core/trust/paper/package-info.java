/** Doubts that follow from the papers and the clock. */
@NullMarked
package ferrule.core.trust.paper;

import org.jspecify.annotations.NullMarked;
