package ferrule.core.trust.joint;

import java.util.Arrays;

/** Medians and spreads that a few wild values do not move. */
final class Robust {

  /** Standard deviation of a normal law over its median absolute deviation. */
  private static final double MAD_TO_SD = 1.4826;

  /** Values further out than this many standard deviations are drawn in before squaring. */
  private static final double WINSOR = 2.5;

  /** Variance of a standard normal value after drawing in at 2.5. */
  private static final double WINSORISED_VARIANCE = 0.9650;

  private Robust() {}

  /** The median; the array is sorted. */
  static double median(double[] values) {
    if (values.length == 0) {
      return 0;
    }
    Arrays.sort(values);
    return quantileOfSorted(values, 0.5);
  }

  /** A quantile by linear interpolation between order statistics. */
  static double quantileOfSorted(double[] sorted, double p) {
    double at = p * (sorted.length - 1);
    int below = (int) Math.floor(at);
    int above = Math.min(sorted.length - 1, below + 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }

  /** 1.4826 times the median absolute deviation from a centre. */
  static double spread(double[] values, double centre) {
    double[] deviations = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      deviations[i] = Math.abs(values[i] - centre);
    }
    return MAD_TO_SD * median(deviations);
  }

  /**
   * Winsorised covariance of the rows' columns: each column is centred on its median, drawn in at
   * 2.5 of its robust spreads, and the covariance taken; a positive semi-definite matrix whatever
   * the data.
   *
   * @param columns one array for each column, all of one length
   * @param leastSd smallest spread of each column
   */
  static double[][] covariance(double[][] columns, double[] leastSd) {
    int d = columns.length;
    int n = d == 0 ? 0 : columns[0].length;
    double[][] drawn = new double[d][];
    for (int j = 0; j < d; j++) {
      double centre = median(columns[j].clone());
      double spread = Math.max(leastSd[j], spread(columns[j], centre));
      drawn[j] = new double[n];
      for (int i = 0; i < n; i++) {
        double value = columns[j][i] - centre;
        drawn[j][i] = Math.max(-WINSOR * spread, Math.min(WINSOR * spread, value));
      }
    }
    double[][] covariance = new double[d][d];
    for (int j = 0; j < d; j++) {
      for (int k = 0; k <= j; k++) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
          sum += drawn[j][i] * drawn[k][i];
        }
        covariance[j][k] = sum / n / WINSORISED_VARIANCE;
        covariance[k][j] = covariance[j][k];
      }
      covariance[j][j] = Math.max(covariance[j][j], leastSd[j] * leastSd[j]);
    }
    return covariance;
  }
}
