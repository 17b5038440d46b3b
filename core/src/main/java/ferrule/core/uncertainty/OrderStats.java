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
    return quantileInPlace(values, values.length, share);
  }

  /**
   * {@link #quantileInPlace(double[], double)} of the first values of an array.
   *
   * @param size how many
   * @param share from 0 to 1
   */
  public static double quantileInPlace(double[] values, int size, double share) {
    if (size == 0) {
      return Double.NaN;
    }
    if (holdsNaN(values, size)) {
      return quantile(sorted(values, size), share);
    }
    double at = share * (size - 1);
    int below = (int) at;
    double low = select(values, size, below);
    if (at == below || below == size - 1) {
      return low;
    }
    double high = values[below + 1];
    for (int i = below + 2; i < size; i++) {
      high = Math.min(high, values[i]);
    }
    return low + (at - below) * (high - low);
  }

  private static boolean holdsNaN(double[] values, int size) {
    for (int i = 0; i < size; i++) {
      if (Double.isNaN(values[i])) {
        return true;
      }
    }
    return false;
  }

  private static double[] sorted(double[] values, int size) {
    double[] sorted = Arrays.copyOf(values, size);
    Arrays.sort(sorted);
    return sorted;
  }

  /**
   * Puts the value of a rank among the first values of an array in its place, none larger before it
   * and none smaller behind it (Hoare 1961; split without branches, which a processor would guess
   * wrongly half of the time).
   *
   * @param values none of the first ones NaN
   * @param size how many, more than the rank
   * @param rank from 0
   */
  public static double select(double[] values, int size, int rank) {
    int from = 0;
    int to = size - 1;
    while (to - from > 16) {
      double pivot = middle(values, from, to);
      int smaller = from;
      for (int i = from; i <= to; i++) {
        double v = values[i];
        values[i] = values[smaller];
        values[smaller] = v;
        smaller += v < pivot ? 1 : 0;
      }
      if (rank < smaller) {
        to = smaller - 1;
        continue;
      }
      int larger = smaller;
      for (int i = smaller; i <= to; i++) {
        double v = values[i];
        values[i] = values[larger];
        values[larger] = v;
        larger += v <= pivot ? 1 : 0;
      }
      if (rank < larger) {
        return values[rank];
      }
      from = larger;
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
