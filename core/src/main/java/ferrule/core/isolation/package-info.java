/**
 * Cord isolation: from loss readings of cord pairs in different combinations, which end of which
 * cord is bad. A reading is the sum of the losses of the ends mated in it, so the ends follow by
 * least squares, as far as the combinations tell them apart; where they do not, this package says
 * what can be told, and which combination to measure next.
 */
@NullMarked
package ferrule.core.isolation;

import org.jspecify.annotations.NullMarked;
