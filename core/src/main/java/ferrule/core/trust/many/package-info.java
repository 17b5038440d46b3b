/**
 * Doubts that only many readings together can raise: lengths of a whole job or panel, fibres
 * crossed, sets of values that repeat, times that the handling cannot have taken, clocks that run
 * wrong, cords that wear.
 */
@NullMarked
package ferrule.core.trust.many;

import org.jspecify.annotations.NullMarked;
