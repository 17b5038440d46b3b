package ferrule.core.zero;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.LossDb;

/**
 * What the verification of a zero may read. The launch cord is mated to the receive cord through an
 * adapter after the zero was set.
 *
 * <p>With cord-to-cord connections of at most {@code pair} dB each (signal flow of a zero):
 *
 * <ul>
 *   <li>one-cord: {@code V = c(L,R)}, so from just below 0 to one pair;
 *   <li>two-cord, third cord put in: {@code V = c(L,X) + c(X,R) - c(L,R)}, so from minus one pair
 *       to two pairs;
 *   <li>three-cord, third cord taken out: {@code V = c(L,R) - c(L,X) - c(X,R)}, so from minus two
 *       pairs to one pair.
 * </ul>
 *
 * @param lowest least believable reading
 * @param highest most that the cords allow
 */
public record VerificationWindow(LossDb lowest, LossDb highest) {

  /** A one-cord verification below this calls for action. Common practice, no source. */
  public static final double NEGATIVE_ACTS_DB = -0.03;

  /**
   * The window for a method.
   *
   * @param pair most loss of the two cords' plugs mated, dB
   */
  public static VerificationWindow of(Method method, double pair) {
    return switch (method) {
      case ONE_CORD -> new VerificationWindow(new LossDb(NEGATIVE_ACTS_DB), new LossDb(pair));
      case TWO_CORD -> new VerificationWindow(new LossDb(-pair), new LossDb(2 * pair));
      case THREE_CORD -> new VerificationWindow(new LossDb(-2 * pair), new LossDb(pair));
    };
  }

  /** Whether a reading lies inside; bounds included, a hair of arithmetic noise allowed. */
  public boolean holds(LossDb verification) {
    return verification.value() >= lowest.value() - 1e-9
        && verification.value() <= highest.value() + 1e-9;
  }

  /** "-0.03 to 0.20 dB". */
  public String shown() {
    return Decibels.shown(lowest.value()) + " to " + Decibels.shown(highest.value()) + " dB";
  }
}
