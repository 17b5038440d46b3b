package ferrule.core.trust.joint;

import ferrule.core.trust.DoubtKind;
import ferrule.core.uncertainty.Significance;

/**
 * How often honest scatter would ring: chances by number of looks, and how a job's chance of one in
 * 200 is shared out among the kinds of doubt.
 */
final class Looks {

  /** Chance that a perfect job rings by a shift of a zero. */
  static final double SHIFT = 0.0012;

  /** By a step. */
  static final double STEP = 0.0008;

  /** By a drift. */
  static final double DRIFT = 0.0006;

  /** By a high panel. */
  static final double PLACE = 0.005;

  /** By a high position. */
  static final double POSITION = 0.005;

  /** By a bias of direction. */
  static final double BIAS = 0.0012;

  private Looks() {}

  /** The chance of a kind of doubt that the search rings for. */
  static double shareOf(DoubtKind kind) {
    return switch (kind) {
      case ZERO_SHIFT -> SHIFT;
      case LEVEL_STEP -> STEP;
      case LEVEL_DRIFT -> DRIFT;
      case PANEL_HIGH -> PLACE;
      case POSITION_HIGH -> POSITION;
      case DIRECTION_BIAS -> BIAS;
      default -> throw new IllegalArgumentException("Not searched for: " + kind);
    };
  }

  /** Logarithm of the chance of a value this far out on either side in one look. */
  static double logTwoSided(double t) {
    return Math.min(0, Math.log(2) + Significance.logNormalAbove(Math.abs(t)));
  }

  /**
   * Logarithm of the chance that the largest standardised difference over all cuts of a series
   * exceeds {@code t}, standard deviation known: {@code 2(1-Phi(t)) + 2 t phi(t) sum_k nu(x_k) n/(2
   * k (n-k))}, {@code x_k = t sqrt(n/(k(n-k)))}, {@code nu(x) = exp(-0.583 x)}. Siegmund, D.
   * (1985), "Sequential Analysis", chapter on boundary crossing (formula from memory); checked
   * against simulated critical values.
   *
   * @param t largest standardised difference
   * @param n length of the series
   * @param least fewest values on either side of a cut
   */
  static double logLargestCut(double t, int n, int least) {
    double z = Math.abs(t);
    double sum = 0;
    int step = Math.max(1, n / 2000);
    for (int k = Math.max(1, least); k <= n - Math.max(1, least); k += step) {
      double rate = (double) n / ((double) k * (n - k));
      sum += step * Math.exp(-0.583 * z * Math.sqrt(rate)) * rate / 2;
    }
    double logDensity = -0.5 * z * z - 0.5 * Math.log(2 * Math.PI);
    double log = Math.log(2 * z * sum + 2 / Math.max(1, z)) + logDensity;
    return Math.min(0, log);
  }

  /**
   * The largest standardised difference over all cuts that chance exceeds so often: {@link
   * #logLargestCut} turned round, by halving.
   *
   * @param chance above 0, below 0.5
   */
  static double largestCut(double chance, int n, int least) {
    double low = 1;
    double high = 40;
    while (high - low > 1e-6) {
      double middle = (low + high) / 2;
      if (logLargestCut(middle, n, least) > Math.log(chance)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }
}
