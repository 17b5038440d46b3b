package ferrule.core.isolation;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One end: what it loses, as far as that can be told.
 *
 * @param end which
 * @param state in short
 * @param readings in which it was mated
 * @param loss if it can be told
 * @param over probability that it loses more than one end may; of an end that cannot be told, that
 *     it does so even if its fellows lose nothing: a lower bound, for none can lose less
 * @param contrast against its fellows, if it has any
 */
public record EndFinding(
    EndId end,
    EndState state,
    int readings,
    Optional<Estimate> loss,
    OptionalDouble over,
    Optional<Contrast> contrast) {

  /** How sure Ferrule must be to call an end bad, or in order. */
  public static final double SURE = 0.95;
}
