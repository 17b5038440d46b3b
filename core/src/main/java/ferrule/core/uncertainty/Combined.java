package ferrule.core.uncertainty;

import org.apache.commons.statistics.distribution.TDistribution;

/**
 * A combined standard uncertainty by the law of propagation (JCGM 100:2008, clause 5) with
 * effective degrees of freedom by Welch and Satterthwaite (G.4.1).
 *
 * @param u combined standard uncertainty
 * @param degrees effective degrees of freedom; infinite if all inputs are; NaN with correlated
 *     inputs, for which the formula does not hold
 */
public record Combined(double u, double degrees) {

  /** Two-sided coverage probability at which k is about 2 for many degrees of freedom. */
  public static final double USUAL_COVERAGE = 0.95;

  /**
   * Combines independent inputs.
   *
   * @param products sensitivity times standard uncertainty of each input, {@code c_i u_i}
   * @param degrees degrees of freedom of each; infinite for a value known for certain
   */
  public static Combined independent(double[] products, double[] degrees) {
    double variance = 0;
    double welch = 0;
    for (int i = 0; i < products.length; i++) {
      double square = products[i] * products[i];
      variance += square;
      welch += square * square / degrees[i];
    }
    return new Combined(
        Math.sqrt(variance), welch == 0 ? Double.POSITIVE_INFINITY : variance * variance / welch);
  }

  /**
   * Combines correlated inputs: {@code u_c^2 = sum_ij c_i u_i c_j u_j r_ij}.
   *
   * @param products sensitivity times standard uncertainty of each input
   * @param correlation square, symmetric, ones on the diagonal
   */
  public static Combined correlated(double[] products, double[][] correlation) {
    return new Combined(Math.sqrt(covariance(products, products, correlation)), Double.NaN);
  }

  /**
   * Covariance of two results of the same inputs: {@code sum_ij p_i q_j r_ij} (JCGM 100:2008,
   * H.2.3).
   */
  public static double covariance(double[] first, double[] second, double[][] correlation) {
    double sum = 0;
    for (int i = 0; i < first.length; i++) {
      for (int j = 0; j < second.length; j++) {
        sum += first[i] * second[j] * correlation[i][j];
      }
    }
    return sum;
  }

  /**
   * Coverage factor for a two-sided coverage probability: the t quantile at the effective degrees
   * of freedom, truncated to the next lower whole number (JCGM 100:2008, G.4.1 note and G.6.4).
   *
   * @param coverage above 0 and below 1
   */
  public double coverageFactor(double coverage) {
    double nu = Double.isFinite(degrees) ? Math.max(1, Math.floor(degrees)) : 1e9;
    return TDistribution.of(nu).inverseSurvivalProbability((1 - coverage) / 2);
  }

  /** Expanded uncertainty at a two-sided coverage probability. */
  public double expanded(double coverage) {
    return coverageFactor(coverage) * u;
  }

  /**
   * Degrees of freedom of a Type B uncertainty known to a relative accuracy: {@code nu = (du/u)^-2
   * / 2} (JCGM 100:2008, G.4.2).
   */
  public static double degreesOf(double relativeAccuracy) {
    return 0.5 / (relativeAccuracy * relativeAccuracy);
  }
}
