package ferrule.core.uncertainty;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The probability that a measured thing conforms (JCGM 106:2012, clause 7), for a reading whose
 * error follows a normal law.
 */
public final class Conformity {

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private Conformity() {}

  /**
   * Probability of conforming to an upper limit, {@code Phi((T - y)/u)} (7.3.2).
   *
   * @param value reading
   * @param upper limit
   * @param u standard uncertainty, above 0
   */
  public static double belowUpper(double value, double upper, double u) {
    return NORMAL.cumulativeProbability((upper - value) / u);
  }

  /** Probability of conforming to a lower limit (7.3.2). */
  public static double aboveLower(double value, double lower, double u) {
    return NORMAL.survivalProbability((lower - value) / u);
  }

  /** Probability of lying between two limits (7.4). */
  public static double between(double value, double lower, double upper, double u) {
    return NORMAL.probability((lower - value) / u, (upper - value) / u);
  }

  /**
   * How many standard uncertainties inside the limit give this probability of conforming (Table 1).
   */
  public static double coverage(double probability) {
    return NORMAL.inverseCumulativeProbability(probability);
  }

  /**
   * How far out a normal value must lie before it counts as odd, when {@code looks} honest values
   * are looked at and none of them should ring by chance more than once in {@code 1/alpha} jobs.
   *
   * @param looks number of values looked at, at least 1
   * @param alpha chance of ringing at all on a perfect job, above 0 and below 1
   * @param twoSided whether both directions count
   * @return standard deviations
   */
  public static double alarmLevel(long looks, double alpha, boolean twoSided) {
    double each = -Math.expm1(Math.log1p(-alpha) / Math.max(1, looks));
    return NORMAL.inverseSurvivalProbability(twoSided ? each / 2 : each);
  }
}
