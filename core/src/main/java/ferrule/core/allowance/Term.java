package ferrule.core.allowance;

import ferrule.core.optics.LossDb;

/**
 * One term of a limit or of an expected loss: a count of one part.
 *
 * @param count how many; km for fibre
 * @param part what is counted
 * @param scatter whether the parts vary one by one (connections, so spreads add as squares) or all
 *     together (one fibre, so the spread grows with the length)
 */
public record Term(double count, Part part, Scatter scatter) {

  /** How the spread of one part carries over to a count of it. */
  public enum Scatter {
    /** Each part on its own: variances add. */
    INDEPENDENT,
    /** All alike: standard deviations add. */
    COMMON
  }

  /** Loss of the term. */
  public LossDb loss() {
    return new LossDb(count * part.eachDb());
  }

  /** Variance of the term, dB squared. */
  public double variance() {
    double sd = part.eachSdDb();
    return scatter == Scatter.COMMON ? count * count * sd * sd : count * sd * sd;
  }
}
