package ferrule.core.trust.joint;

import java.util.Arrays;

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
 * <p>The score {@link #score} is minus the derivative of the log density, held still beyond 2.6
 * standard deviations on the left and vanishing on the right, so that a bad link moves nothing.
 */
final class SkewLaw {

  private static final double Z90 = 1.2815515655446004;
  private static final double LEFT_Z = -2.3;
  private static final double RIGHT_Z = 4;
  private static final double HUBER = 1.8;

  private final boolean skewed;
  private final double bound;
  private final double scale;
  private final double sigma;
  private final double slope;
  private final double power;

  private SkewLaw(boolean skewed, double bound, double scale, double sigma, double[] sample) {
    this.skewed = skewed;
    this.bound = bound;
    this.scale = scale;
    this.sigma = sigma;
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
    int n = Math.max(1, sample.length);
    mean /= n;
    double expected = 1 / (sigmaOfValue() * sigmaOfValue());
    // A handful of values says little of slope and power: lean on the law itself.
    double lean = 20;
    this.slope = Math.max(0.2 * expected, (slopes + lean * expected) / (n + lean));
    this.power =
        Math.max(0.2 * expected, (squares - n * mean * mean + lean * expected) / (n + lean));
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
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double low = Robust.quantileOfSorted(sorted, 0.1);
    double mid = Robust.quantileOfSorted(sorted, 0.5);
    double high = Robust.quantileOfSorted(sorted, 0.9);
    double least = 0.15 * usualSd;
    double left = Math.max(mid - low, least);
    double right = Math.max(high - mid, least);
    double t = right / left;
    if (t < 1.1) {
      return new SkewLaw(false, 0, 1, (left + right) / (2 * Z90), sorted);
    }
    double sigma = Math.min(1.0, Math.log(t) / Z90);
    double scale = right / (Math.exp(sigma * Z90) - 1);
    double bound = -scale * Math.exp(sigma * sigma / 2);
    double shift = bound + scale - mid;
    for (int i = 0; i < sorted.length; i++) {
      sorted[i] += shift;
    }
    return new SkewLaw(true, bound, scale, sigma, sorted);
  }

  private double sigmaOfValue() {
    return skewed ? scale * sigma : sigma;
  }

  /** Minus the derivative of the log density, 1/dB. */
  double score(double value) {
    if (!skewed) {
      double drawn = Math.max(-HUBER * sigma, Math.min(HUBER * sigma, value));
      return drawn / (sigma * sigma);
    }
    double above = value - bound;
    double lowest = scale * Math.exp(LEFT_Z * sigma);
    double highest = scale * Math.exp(RIGHT_Z * sigma);
    double inside = Math.max(lowest, Math.min(highest, above));
    double z = Math.log(inside / scale) / sigma;
    double score = (1 + z / sigma) / inside;
    return above > highest ? score * highest / above : score;
  }

  /** Mean slope of the score over the sample, 1/dB². */
  double slope() {
    return slope;
  }

  /** Mean square of the score over the sample, 1/dB². */
  double power() {
    return power;
  }

  /** What one value tells of a shift, 1/dB²: {@code slope^2/power}. */
  double information() {
    return slope * slope / power;
  }
}
