package ferrule.core.trust.cause;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.joint.FibreExcess;
import java.util.List;

/**
 * The values of a fibre's shortest and longest wavelength changed places: the one reads as much
 * less than expected as the other reads more. There is no size to it, only the two expected losses.
 */
final class Exchanged {

  private static final double ROUGH_DB = 0.03;

  private Exchanged() {}

  /** Minus infinity where a direction lacks a pair of wavelengths. */
  static double logLikelihood(FibreExcess excess, double[][] honest) {
    List<AssessedReading> readings = excess.readings();
    int d = readings.size();
    double[] mean = new double[d];
    int pairs = 0;
    for (boolean forward : new boolean[] {true, false}) {
      int shortest = -1;
      int longest = -1;
      for (int k = 0; k < d; k++) {
        if (readings.get(k).forward() != forward) {
          continue;
        }
        if (shortest < 0 || readings.get(k).nm() < readings.get(shortest).nm()) {
          shortest = k;
        }
        if (longest < 0 || readings.get(k).nm() > readings.get(longest).nm()) {
          longest = k;
        }
      }
      if (shortest >= 0 && shortest != longest) {
        double gap = expected(readings.get(shortest)) - expected(readings.get(longest));
        mean[shortest] = -gap;
        mean[longest] = gap;
        pairs++;
      }
    }
    if (pairs == 0) {
      return Double.NEGATIVE_INFINITY;
    }
    double[][] covariance = new double[d][];
    for (int k = 0; k < d; k++) {
      covariance[k] = honest[k].clone();
      covariance[k][k] += ROUGH_DB * ROUGH_DB;
    }
    return new Normal(mean, covariance).logDensity(excess.db());
  }

  static double expected(AssessedReading reading) {
    return reading.allowance().map(a -> a.expectedDb()).orElse(Double.NaN);
  }
}
