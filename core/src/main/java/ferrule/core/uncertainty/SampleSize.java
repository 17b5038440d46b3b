package ferrule.core.uncertainty;

import org.apache.commons.statistics.distribution.HypergeometricDistribution;

/**
 * Sizes and error rates of samples drawn without putting back, by the hypergeometric law: of a lot
 * of {@code N} with {@code D} bad, a sample of {@code n} holds none with probability {@code C(N-D,
 * n) / C(N, n)}.
 */
public final class SampleSize {

  private static final double HAIR = 1e-9;

  private SampleSize() {}

  /**
   * How many are bad where a share of the lot is, rounded up.
   *
   * @param lot 1 or more
   * @param share above 0, at most 1
   */
  public static int badOf(int lot, double share) {
    return Math.max(1, Math.min(lot, (int) Math.ceil(share * lot - HAIR)));
  }

  /**
   * Probability that a sample holds none of the bad ones, 0 to 1.
   *
   * @param lot 1 or more
   * @param bad 0 to the lot
   * @param sample 0 to the lot
   * @throws IllegalArgumentException if they do not fit together
   */
  public static double missed(int lot, int bad, int sample) {
    if (lot < 1 || bad < 0 || bad > lot || sample < 0 || sample > lot) {
      throw new IllegalArgumentException(
          "a sample of " + sample + " from a lot of " + lot + " with " + bad + " bad");
    }
    return HypergeometricDistribution.of(lot, bad, sample).probability(0);
  }

  /**
   * The smallest sample that holds a bad one with this confidence, if so many are bad: the sample
   * that must be free of failures to say, with that confidence, that fewer are.
   *
   * @param lot 1 or more
   * @param bad 1 to the lot
   * @param confidence above 0, below 1
   */
  public static int toFind(int lot, int bad, double confidence) {
    int low = 0;
    int high = lot;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (missed(lot, bad, middle) <= 1 - confidence + HAIR) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }
}
