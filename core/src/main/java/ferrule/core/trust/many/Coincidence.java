package ferrule.core.trust.many;

import ferrule.core.uncertainty.Conformity;

/** How often honest values agree by chance. */
final class Coincidence {

  private Coincidence() {}

  /**
   * Chance that two independent normal values of one mean are printed alike: {@code E[max(0, 1 -
   * |D|/q)]} with {@code D} normal of variance {@code 2 sigma^2}, the position of the mean within
   * the printed step being anywhere. For steps much smaller than sigma it is {@code q / (2 sigma
   * sqrt(pi))}, the integral of the squared density. Own derivation.
   *
   * @param sigma standard deviation of one value, at least 0
   * @param step printed step, above 0, in the unit of sigma
   */
  static double printedAlike(double sigma, double step) {
    double s = Math.sqrt(2) * sigma / step;
    if (!(s > 1e-9)) {
      return 1;
    }
    if (s > 1e4) {
      return smallStep(sigma, step);
    }
    double inside = Conformity.between(0, -1, 1, s);
    double moment = s * Math.sqrt(2 / Math.PI) * -Math.expm1(-1 / (2 * s * s));
    return Math.min(1, Math.max(0, inside - moment));
  }

  /**
   * The limit of {@link #printedAlike} for a small step: {@code q / (2 sigma sqrt(pi))}, which may
   * exceed 1 where the step is not small.
   */
  static double smallStep(double sigma, double step) {
    return step / (2 * sigma * Math.sqrt(Math.PI));
  }

  /**
   * Of the coincidences of two sets of {@code values} independent normal values each, the share
   * that lies at least as far out as one at the given squared distance. Coincidences crowd where
   * values crowd: where they happen has half the variance of the values, so twice the squared
   * distance follows a chi-squared law. An odd number of values is taken as one more, which only
   * makes the share larger.
   *
   * @param values how many, at least 1
   * @param squaredDistance sum of squares, each value in its own standard deviations
   */
  static double shareAsFarOut(int values, double squaredDistance) {
    double term = Math.exp(-squaredDistance);
    double sum = 0;
    for (int i = 0; i < (values + 1) / 2; i++) {
      sum += term;
      term *= squaredDistance / (i + 1);
    }
    return Double.isNaN(sum) ? 0 : Math.min(1, sum);
  }
}
