package ferrule.core.trust.joint;

import ferrule.core.uncertainty.OrderStats;

/** Covariances that a few wild values do not move. */
final class Robust {

  /** Values further out than this many standard deviations are drawn in before squaring. */
  private static final double WINSOR = 2.5;

  /** Variance of a standard normal value after drawing in at 2.5. */
  private static final double WINSORISED_VARIANCE = 0.9650;

  private Robust() {}

  /**
   * Winsorised covariance of the rows' columns: each column is centred on its median, drawn in at
   * 2.5 of its robust spreads, and the covariance taken; a positive semi-definite matrix whatever
   * the data.
   *
   * @param columns one array for each column, all of one length
   * @param leastSd smallest spread of every column
   */
  static double[][] covariance(double[][] columns, double leastSd) {
    int d = columns.length;
    int n = d == 0 ? 0 : columns[0].length;
    double[][] drawn = new double[d][];
    for (int j = 0; j < d; j++) {
      drawn[j] = columns[j].clone();
      double centre = OrderStats.quantileInPlace(drawn[j], 0.5);
      for (int i = 0; i < n; i++) {
        drawn[j][i] = Math.abs(columns[j][i] - centre);
      }
      double spread =
          Math.max(leastSd, OrderStats.SD_OVER_MAD * OrderStats.quantileInPlace(drawn[j], 0.5));
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
      covariance[j][j] = Math.max(covariance[j][j], leastSd * leastSd);
    }
    return covariance;
  }
}
