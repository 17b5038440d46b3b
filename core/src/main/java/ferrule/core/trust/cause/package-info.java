/**
 * Why a fibre loses more than was expected: a likelihood of each cause of loss for what is left of
 * its readings, over wavelengths, directions and length, and from it how probable each cause is.
 *
 * <p>Flow: {@link ferrule.core.trust.joint.FibreExcess} (what is left of the readings), {@link
 * ferrule.core.trust.cause.Hypotheses} (how each cause would show, as a mixture of normal laws),
 * {@link ferrule.core.trust.cause.LossCauses} (what fits how well), {@link
 * ferrule.core.trust.cause.Finding} (what is told of it).
 */
@NullMarked
package ferrule.core.trust.cause;

import org.jspecify.annotations.NullMarked;
