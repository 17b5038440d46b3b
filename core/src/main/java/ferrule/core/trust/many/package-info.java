/** Doubts that only many readings together can raise. */
@NullMarked
package ferrule.core.trust.many;

import org.jspecify.annotations.NullMarked;
