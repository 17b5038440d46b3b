package ferrule.core.trust.joint;

import ferrule.core.uncertainty.OrderStats;

/**
 * How the part of a fibre scatters about its mean: a log-normal law with a free lower bound, or a
 * normal one where the sample is not skewed to the right. Connections lose more or less but never
 * less than nothing, so the law has a steep left and a long right side; knowing that makes a shift
 * of many fibres better visible than their mean or median would.
 *
 * <p>Fitted to three quantiles (10, 50, 90 %): with {@code t = (q90 - q50)/(q50 - q10)}, {@code
 * sigma = ln t / 1.2816}, {@code scale = (q90 - q50)/(t - 1)}. The bound is placed so that the
 * law's mean is 0.
 *
 * <p>The score {@link #score} is the normal score of a value, {@code z = ln((x -
 * bound)/scale)/sigma}, held still beyond 2.5 standard deviations on the left and 3 on the right.
 * Normal scores lose little to the best possible score of such a law and, unlike it, go on growing
 * to the right, so a group that lies far off is seen as well as one that lies a little off; a
 * single bad link moves nothing by more than three honest ones.
 */
final class SkewLaw {

  private static final double Z90 = 1.2815515655446004;
  private static final double LEFT_Z = -2.5;
  private static final double RIGHT_Z = 3;

  private final boolean skewed;
  private final double bound;
  private final double scale;
  private final double sigma;
  private final double leftEnd;
  private final double slope;
  private final double power;

  private SkewLaw(boolean skewed, double bound, double scale, double sigma, double[] sample) {
    this.skewed = skewed;
    this.bound = bound;
    this.scale = scale;
    this.sigma = sigma;
    this.leftEnd = scale * Math.exp(LEFT_Z * sigma);
    double step = 0.02 * (skewed ? scale * sigma : sigma);
    double slopes = 0;
    double squares = 0;
    double mean = 0;
    for (double value : sample) {
      double score = score(value);
      slopes += (score(value + step) - score(value - step)) / (2 * step);
      squares += score * score;
      mean += score;
    }
    int n = sample.length;
    mean /= Math.max(1, n);
    double usual = skewed ? Math.exp(sigma * sigma / 2) / (sigma * scale) : 1 / sigma;
    // A handful of values says little of slope and power: lean on the law itself.
    double lean = 20;
    this.slope = Math.max(0.3 * usual, (slopes + lean * usual) / (n + lean));
    this.power = Math.max(0.3, (squares - n * mean * mean + lean) / (n + lean));
  }

  /** A normal law. */
  static SkewLaw normal(double sd) {
    return new SkewLaw(false, 0, 1, sd, new double[0]);
  }

  /**
   * Fits a sample.
   *
   * @param values centred in some way; copied
   * @param usualSd standard deviation to fall back on where there are few
   */
  static SkewLaw fit(double[] values, double usualSd) {
    if (values.length < 25) {
      return normal(usualSd);
    }
    double[] sample = values.clone();
    double low = OrderStats.quantileInPlace(sample, 0.1);
    double mid = OrderStats.quantileInPlace(sample, 0.5);
    double high = OrderStats.quantileInPlace(sample, 0.9);
    double least = 0.15 * usualSd;
    double left = Math.max(mid - low, least);
    double right = Math.max(high - mid, least);
    double t = right / left;
    if (t < 1.1) {
      return new SkewLaw(false, 0, 1, (left + right) / (2 * Z90), sample);
    }
    double sigma = Math.min(1.0, Math.log(t) / Z90);
    double scale = right / (Math.exp(sigma * Z90) - 1);
    double bound = -scale * Math.exp(sigma * sigma / 2);
    double shift = bound + scale - mid;
    for (int i = 0; i < sample.length; i++) {
      sample[i] += shift;
    }
    return new SkewLaw(true, bound, scale, sigma, sample);
  }

  /** The normal score of a value, bounded. */
  double score(double value) {
    if (!skewed) {
      return Math.max(LEFT_Z, Math.min(RIGHT_Z, value / sigma));
    }
    double above = value - bound;
    if (above <= leftEnd) {
      return LEFT_Z;
    }
    return Math.min(RIGHT_Z, Math.log(above / scale) / sigma);
  }

  /** Mean slope of the score over the sample, 1/dB. */
  double slope() {
    return slope;
  }

  /** Mean square of the score over the sample. */
  double power() {
    return power;
  }

  /** What one value tells of a shift, 1/dB²: {@code slope^2/power}. */
  double information() {
    return slope * slope / power;
  }
}
