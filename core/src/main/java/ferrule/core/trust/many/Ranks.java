package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/** Order statistics of plain arrays; nothing here knows of fibres. */
final class Ranks {

  /** From here on a sample is worth its while. */
  private static final int MANY = 600;

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
    return size == 0 ? Double.NaN : select(values, size, Math.min(size - 1, (int) (share * size)));
  }

  /**
   * The middle value, or the mean of the two middle ones; NaN without values. Changes the order of
   * the array.
   */
  static double median(double[] values, int size) {
    if (size == 0) {
      return Double.NaN;
    }
    double upper = select(values, size, size / 2);
    if (size % 2 == 1) {
      return upper;
    }
    double lower = values[0];
    for (int i = 1; i < size / 2; i++) {
      lower = Math.max(lower, values[i]);
    }
    return upper / 2 + lower / 2;
  }

  /**
   * A quantile between its neighbours by straight line, exactly as {@link OrderStats#quantile} has
   * it of the sorted values; NaN without any. Changes the order of the array. No NaN.
   */
  static double interpolated(double[] values, int size, double share) {
    if (size == 0) {
      return Double.NaN;
    }
    double at = share * (size - 1);
    int below = (int) at;
    double low = select(values, size, below);
    double high = low;
    if (below + 1 < size) {
      high = values[below + 1];
      for (int i = below + 2; i < size; i++) {
        high = Math.min(high, values[i]);
      }
    }
    return low + (at - below) * (high - low);
  }

  /** {@link OrderStats#spread} without sorting. No NaN. */
  static double spread(double[] values) {
    double[] scratch = values.clone();
    double centre = interpolated(scratch, scratch.length, 0.5);
    for (int i = 0; i < scratch.length; i++) {
      scratch[i] = Math.abs(values[i] - centre);
    }
    return OrderStats.SD_OVER_MAD * interpolated(scratch, scratch.length, 0.5);
  }

  /**
   * Puts the value of a rank, from 0, in its place, less ones before and greater ones after it
   * (Hoare 1961, the pivot being the middle of three, or of a sample where there are many: Floyd
   * and Rivest 1975). No NaN.
   */
  static double select(double[] values, int size, int rank) {
    return select(values, 0, size - 1, rank);
  }

  private static double select(double[] values, int first, int last, int rank) {
    int low = first;
    int high = last;
    while (low < high) {
      double pivot =
          high - low > MANY
              ? ofSample(values, low, high, rank)
              : middle(values[low], values[(low + high) >>> 1], values[high]);
      int i = low;
      int j = high;
      while (i <= j) {
        while (values[i] < pivot) {
          i++;
        }
        while (values[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double swapped = values[i];
          values[i++] = values[j];
          values[j--] = swapped;
        }
      }
      if (rank <= j) {
        high = j;
      } else if (rank >= i) {
        low = i;
      } else {
        return values[rank];
      }
    }
    return values[rank];
  }

  /** A value that lies a little beyond the rank, on the side of the most values. */
  private static double ofSample(double[] values, int low, int high, int rank) {
    double n = high - low + 1.0;
    double place = rank - low + 1.0;
    double log = Math.log(n);
    double sample = 0.5 * Math.exp(2 * log / 3);
    double beyond = 0.5 * Math.sqrt(log * sample * (n - sample) / n) * Math.signum(place - n / 2);
    int from = (int) Math.max(low, rank - place * sample / n + beyond);
    int to = (int) Math.min(high, rank + (n - place) * sample / n + beyond);
    return select(values, from, to, rank);
  }

  private static double middle(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
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
