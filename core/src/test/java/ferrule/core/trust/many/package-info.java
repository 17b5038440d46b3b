/** Doubts that many readings raise together, tried on simulated jobs. */
@NullMarked
package ferrule.core.trust.many;

import org.jspecify.annotations.NullMarked;
