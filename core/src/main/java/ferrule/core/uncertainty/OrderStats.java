package ferrule.core.uncertainty;

import java.util.Arrays;

/** Medians and quantiles: measures of a sample that a few wild values do not move. */
public final class OrderStats {

  /** A normal law's standard deviation over its median absolute deviation. */
  public static final double SD_OVER_MAD = 1.4826;

  private OrderStats() {}

  /** The median; NaN of nothing. The array is left as it is. */
  public static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return quantile(sorted, 0.5);
  }

  /**
   * A quantile of an ascending array, between its neighbours by straight line; NaN of nothing.
   *
   * @param share from 0 to 1
   */
  public static double quantile(double[] sorted, double share) {
    if (sorted.length == 0) {
      return Double.NaN;
    }
    double at = share * (sorted.length - 1);
    int below = (int) at;
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }

  /** Robust standard deviation: 1.4826 times the median absolute deviation; NaN of nothing. */
  public static double spread(double[] values) {
    double centre = median(values);
    double[] away = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      away[i] = Math.abs(values[i] - centre);
    }
    return SD_OVER_MAD * median(away);
  }
}
