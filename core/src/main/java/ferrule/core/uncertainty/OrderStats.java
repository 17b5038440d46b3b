package ferrule.core.uncertainty;

import java.util.Arrays;

/** Medians and quantiles: measures of a sample that a few wild values do not move. */
public final class OrderStats {

  /** A normal law's standard deviation over its median absolute deviation. */
  public static final double SD_OVER_MAD = 1.4826;

  private OrderStats() {}

  /** The median; NaN of nothing. The array is left as it is. */
  public static double median(double[] values) {
    return quantileInPlace(values.clone(), 0.5);
  }

  /**
   * A quantile of an array in any order, as {@link #quantile} of it sorted; NaN of nothing, and NaN
   * counts as larger than any number. The array is put in another order, not in ascending one: a
   * selection (Hoare 1961) takes time in proportion to its length.
   *
   * @param share from 0 to 1
   */
  public static double quantileInPlace(double[] values, double share) {
    int n = numbersFirst(values);
    if (n < values.length) {
      Arrays.sort(values);
      return quantile(values, share);
    }
    if (n == 0) {
      return Double.NaN;
    }
    double at = share * (n - 1);
    int below = (int) at;
    double low = select(values, below);
    if (at == below || below == n - 1) {
      return low;
    }
    double high = values[below + 1];
    for (int i = below + 2; i < n; i++) {
      high = Math.min(high, values[i]);
    }
    return low + (at - below) * (high - low);
  }

  /** How many values are numbers. */
  private static int numbersFirst(double[] values) {
    int count = 0;
    for (double value : values) {
      count += Double.isNaN(value) ? 0 : 1;
    }
    return count;
  }

  /** The value of a rank, smaller ones before it and larger ones behind it. */
  private static double select(double[] values, int rank) {
    int from = 0;
    int to = values.length - 1;
    while (to - from > 16) {
      double pivot = middle(values, from, to);
      int i = from;
      int j = to;
      while (i <= j) {
        while (values[i] < pivot) {
          i++;
        }
        while (values[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double swap = values[i];
          values[i++] = values[j];
          values[j--] = swap;
        }
      }
      if (rank <= j) {
        to = j;
      } else if (rank >= i) {
        from = i;
      } else {
        return values[rank];
      }
    }
    Arrays.sort(values, from, to + 1);
    return values[rank];
  }

  /** The median of nine values spread over a range: an ascending array is split in halves. */
  private static double middle(double[] values, int from, int to) {
    int step = (to - from) / 8;
    return middle(
        middle(values[from], values[from + step], values[from + 2 * step]),
        middle(values[from + 3 * step], values[from + 4 * step], values[from + 5 * step]),
        middle(values[from + 6 * step], values[from + 7 * step], values[to]));
  }

  private static double middle(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
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
    return SD_OVER_MAD * quantileInPlace(away, 0.5);
  }
}
