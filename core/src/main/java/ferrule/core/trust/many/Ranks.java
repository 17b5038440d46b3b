package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/** Order statistics of plain arrays; nothing here knows of fibres. */
final class Ranks {

  private Ranks() {}

  /**
   * The places of the values in ascending order. Values that agree to some ten digits keep the
   * order of their places. No NaN.
   */
  static int[] ascending(double[] values) {
    int bits = Long.SIZE - Long.numberOfLeadingZeros(Math.max(1, values.length));
    long places = (1L << bits) - 1;
    long[] keys = new long[values.length];
    for (int i = 0; i < keys.length; i++) {
      // The bits of a double order as the doubles do, once those of negative ones are turned over.
      long raw = Double.doubleToLongBits(values[i] + 0.0);
      long ordered = raw ^ (raw >> 63 & Long.MAX_VALUE);
      keys[i] = ordered & ~places | i;
    }
    Arrays.sort(keys);
    int[] order = new int[keys.length];
    for (int i = 0; i < order.length; i++) {
      order[i] = (int) (keys[i] & places);
    }
    return order;
  }

  /**
   * The value below which a share of the values lies; NaN if there are none. Changes the order of
   * the array.
   */
  static double quantile(double[] values, int size, double share) {
    return size == 0
        ? Double.NaN
        : OrderStats.select(values, size, Math.min(size - 1, (int) (share * size)));
  }

  /**
   * The middle value, or the mean of the two middle ones; NaN without values. Changes the order of
   * the array.
   */
  static double median(double[] values, int size) {
    if (size == 0) {
      return Double.NaN;
    }
    double upper = OrderStats.select(values, size, size / 2);
    if (size % 2 == 1) {
      return upper;
    }
    double lower = values[0];
    for (int i = 1; i < size / 2; i++) {
      lower = Math.max(lower, values[i]);
    }
    return upper / 2 + lower / 2;
  }

  /** How many of the ascending values lie between two bounds, both included. */
  static int between(double[] ascending, double low, double high) {
    return Math.max(0, notAbove(ascending, high) - below(ascending, low));
  }

  /** How many of the ascending values are less than a bound. */
  static int below(double[] ascending, double bound) {
    int low = 0;
    int high = ascending.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (ascending[middle] < bound) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static int notAbove(double[] ascending, double bound) {
    return below(ascending, Math.nextUp(bound));
  }
}
