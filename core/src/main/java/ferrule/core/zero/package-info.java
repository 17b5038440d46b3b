/**
 * Zeros (stored references): how many cords stood between source and meter, the power stored, its
 * verification, and the readings taken under it.
 */
@NullMarked
package ferrule.core.zero;

import org.jspecify.annotations.NullMarked;
