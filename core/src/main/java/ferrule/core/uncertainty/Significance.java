package ferrule.core.uncertainty;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/** How likely a value is by chance alone, with a spread that is itself only known so well. */
public final class Significance {

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private Significance() {}

  /**
   * Probability that Student's t lies below a value.
   *
   * @param t a difference over its standard deviation
   * @param degrees degrees of freedom of that standard deviation, above 0; infinite if it is known
   */
  public static double studentBelow(double t, double degrees) {
    return student(degrees).cumulativeProbability(t);
  }

  /** Probability that Student's t lies this far from 0, on either side. */
  public static double studentTwoSided(double t, double degrees) {
    return 2 * student(degrees).survivalProbability(Math.abs(t));
  }

  /**
   * Natural logarithm of the probability that a standard normal value exceeds {@code z}; beyond 30
   * by the leading term of its asymptotic series.
   */
  public static double logNormalAbove(double z) {
    return z < 30
        ? Math.log(NORMAL.survivalProbability(z))
        : -0.5 * z * z - Math.log(z * Math.sqrt(2 * Math.PI));
  }

  /**
   * The value that a standard normal one exceeds with the given probability.
   *
   * @param probability above 0, below 1
   */
  public static double normalExceededBy(double probability) {
    return NORMAL.inverseSurvivalProbability(probability);
  }

  private static TDistribution student(double degrees) {
    return TDistribution.of(Double.isFinite(degrees) ? degrees : 1e9);
  }

  /**
   * Probability that a sum of squares of this many standard normal values exceeds a value.
   *
   * @param degrees at least 1
   */
  public static double chiSquaredAbove(double value, double degrees) {
    return ChiSquaredDistribution.of(degrees).survivalProbability(value);
  }

  /** The value that such a sum exceeds with the given probability. */
  public static double chiSquaredCritical(double probability, double degrees) {
    return ChiSquaredDistribution.of(degrees).inverseSurvivalProbability(probability);
  }

  /**
   * The chance that each of some independent looks may ring, if all together may ring with the
   * given chance: {@code 1 - (1 - alpha)^(1/n)} (Šidák).
   *
   * @param looks at least 1
   */
  public static double eachOf(long looks, double alpha) {
    return -Math.expm1(Math.log1p(-alpha) / Math.max(1, looks));
  }
}
