package ferrule.core.checks;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Statistics as textbooks give them, for a series of single values: control charts, Grubbs' test,
 * the modified z-score, the largest difference over all cuts, a straight line. Ferrule uses other
 * ones; these are what its own are compared with.
 */
public final class TextbookStatistics {

  private TextbookStatistics() {}

  /**
   * Exponentially weighted moving averages: {@code z_i = lambda x_i + (1 - lambda) z_(i-1)}
   * (NIST/SEMATECH e-Handbook 6.3.2.4).
   */
  public static double[] ewma(double[] x, double start, double lambda) {
    double[] z = new double[x.length];
    double last = start;
    for (int i = 0; i < x.length; i++) {
      last = lambda * x[i] + (1 - lambda) * last;
      z[i] = last;
    }
    return z;
  }

  /**
   * Half the width of an EWMA's limits after {@code i} values: {@code L sigma sqrt(lambda/(2 -
   * lambda) (1 - (1 - lambda)^(2i)))}.
   */
  public static double ewmaHalfWidth(double sigma, double lambda, double limit, double i) {
    return limit * sigma * Math.sqrt(lambda / (2 - lambda) * (1 - Math.pow(1 - lambda, 2 * i)));
  }

  /**
   * Upper cumulative sums in standard deviations: {@code C_i = max(0, C_(i-1) + (x_i -
   * target)/sigma - k)} (NIST/SEMATECH e-Handbook 6.3.2.3).
   */
  public static double[] cusum(double[] x, double target, double sigma, double k, double start) {
    double[] sums = new double[x.length];
    double last = start;
    for (int i = 0; i < x.length; i++) {
      last = Math.max(0, last + (x[i] - target) / sigma - k);
      sums[i] = last;
    }
    return sums;
  }

  /** Place, from 1, of the first value above a limit; 0 if none is. */
  public static int firstAbove(double[] values, double limit) {
    for (int i = 0; i < values.length; i++) {
      if (values[i] > limit) {
        return i + 1;
      }
    }
    return 0;
  }

  /** Place, from 1, of the last 0 at or before a place: where a cumulative sum says it began. */
  public static int lastZero(double[] sums, int before) {
    for (int i = before; i >= 1; i--) {
      if (sums[i - 1] == 0) {
        return i;
      }
    }
    return 0;
  }

  /** Mean. */
  public static double mean(double[] x) {
    return Arrays.stream(x).sum() / x.length;
  }

  /** Standard deviation of a sample. */
  public static double sd(double[] x) {
    double mean = mean(x);
    return Math.sqrt(Arrays.stream(x).map(v -> (v - mean) * (v - mean)).sum() / (x.length - 1));
  }

  /** Grubbs' statistic of the largest value: {@code (max - mean)/s}. */
  public static double grubbs(double[] x) {
    return (Arrays.stream(x).max().orElseThrow() - mean(x)) / sd(x);
  }

  /**
   * What Grubbs' statistic exceeds with probability alpha (NIST/SEMATECH e-Handbook 1.3.5.17.1).
   */
  public static double grubbsCritical(int n, double alpha, boolean twoSided) {
    double t = TDistribution.of(n - 2).inverseSurvivalProbability(alpha / (twoSided ? 2.0 * n : n));
    return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
  }

  private static double median(double[] x) {
    double[] sorted = x.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }

  /** {@code 0.6745 (value - median)/MAD} (Iglewicz and Hoaglin 1993). */
  public static double modifiedZ(double[] x, double value) {
    double median = median(x);
    double mad = median(Arrays.stream(x).map(v -> Math.abs(v - median)).toArray());
    return 0.6745 * (value - median) / mad;
  }

  /**
   * The cut of a series with the largest difference between the means on either side, in standard
   * deviations of that difference.
   *
   * @param after how many values lie before the cut
   * @param size the difference, later less earlier
   * @param t in standard deviations
   */
  public record Cut(int after, double size, double t) {}

  /**
   * The largest of all cuts.
   *
   * @param sigma standard deviation of a value; NaN if it is to be pooled from both sides
   * @param least fewest values on either side
   */
  public static Cut largestCut(double[] x, double sigma, int least) {
    int n = x.length;
    double sum = 0;
    double squares = 0;
    for (double v : x) {
      sum += v;
      squares += v * v;
    }
    Cut best = new Cut(0, 0, 0);
    double before = 0;
    for (int k = 1; k < n; k++) {
      before += x[k - 1];
      if (k < least || n - k < least) {
        continue;
      }
      double size = (sum - before) / (n - k) - before / k;
      double within = squares - before * before / k - (sum - before) * (sum - before) / (n - k);
      double sd = Double.isNaN(sigma) ? Math.sqrt(Math.max(0, within) / (n - 2)) : sigma;
      double t = size / (sd * Math.sqrt(1.0 / k + 1.0 / (n - k)));
      if (Math.abs(t) > Math.abs(best.t())) {
        best = new Cut(k, size, t);
      }
    }
    return best;
  }

  /** Slope of the least squares line through equally spaced values, for each step. */
  public static double slope(double[] x) {
    double middle = (x.length - 1) / 2.0;
    double mean = mean(x);
    double above = 0;
    double below = 0;
    for (int i = 0; i < x.length; i++) {
      above += (i - middle) * (x[i] - mean);
      below += (i - middle) * (i - middle);
    }
    return above / below;
  }

  /** That slope in its own standard deviations: Student's t of {@code n - 2}. */
  public static double slopeT(double[] x) {
    double slope = slope(x);
    double mean = mean(x);
    double middle = (x.length - 1) / 2.0;
    double rest = 0;
    double below = 0;
    for (int i = 0; i < x.length; i++) {
      double left = x[i] - mean - slope * (i - middle);
      rest += left * left;
      below += (i - middle) * (i - middle);
    }
    return slope / Math.sqrt(rest / (x.length - 2) / below);
  }

  /** Welch's t of the difference of two means, first less second. */
  public static double welch(double[] one, double[] other) {
    double v = sd(one) * sd(one) / one.length + sd(other) * sd(other) / other.length;
    return (mean(one) - mean(other)) / Math.sqrt(v);
  }

  /**
   * Chance that so many independent normal values of one mean are printed alike, the position of
   * the mean within the printed step being anywhere: {@code sum over cells of p^n}, averaged.
   */
  public static double printedAlike(double sigma, double step, int n) {
    NormalDistribution normal = NormalDistribution.of(0, sigma);
    int positions = 400;
    int cells = (int) Math.ceil(9 * sigma / step) + 1;
    double sum = 0;
    for (int i = 0; i < positions; i++) {
      double mean = (i + 0.5) / positions * step;
      for (int c = -cells; c <= cells; c++) {
        sum += Math.pow(normal.probability(c * step - mean, (c + 1) * step - mean), n);
      }
    }
    return sum / positions;
  }
}
