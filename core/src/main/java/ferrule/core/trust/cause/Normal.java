package ferrule.core.trust.cause;

/**
 * A normal law of several readings, by its Cholesky factor.
 *
 * <p>Log density {@code -(x-m)'V^-1(x-m)/2 - ln det(2 pi V)/2}.
 */
final class Normal {

  private final double[] mean;

  /** Lower triangle of the Cholesky factor, its diagonal inverted. */
  private final double[][] factor;

  private final double logNorm;

  /**
   * @param mean dB
   * @param covariance dB², positive definite; copied
   */
  Normal(double[] mean, double[][] covariance) {
    int d = mean.length;
    this.mean = mean.clone();
    this.factor = new double[d][];
    double log = d * Math.log(2 * Math.PI) / 2;
    for (int i = 0; i < d; i++) {
      factor[i] = new double[i + 1];
      for (int j = 0; j <= i; j++) {
        double sum = covariance[i][j];
        for (int k = 0; k < j; k++) {
          sum -= factor[i][k] * factor[j][k];
        }
        // A covariance estimated from few readings may lose its last digits to rounding.
        factor[i][j] = i == j ? Math.sqrt(Math.max(sum, 1e-10)) : sum / factor[j][j];
      }
      log += Math.log(factor[i][i]);
    }
    this.logNorm = -log;
    for (int i = 0; i < d; i++) {
      factor[i][i] = 1 / factor[i][i];
    }
  }

  /** Logarithm of the density, 1/dB to the number of readings; finite for finite values. */
  double logDensity(double[] x) {
    return logDensity(x, new double[mean.length]);
  }

  /**
   * The same for one of many laws.
   *
   * @param z room for as many values as there are readings; overwritten
   */
  double logDensity(double[] x, double[] z) {
    int d = mean.length;
    double square = 0;
    for (int i = 0; i < d; i++) {
      double sum = x[i] - mean[i];
      for (int k = 0; k < i; k++) {
        sum -= factor[i][k] * z[k];
      }
      z[i] = sum * factor[i][i];
      square += z[i] * z[i];
    }
    return logNorm - square / 2;
  }
}
