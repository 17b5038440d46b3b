package ferrule.core.trust.many;

import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * The pace of one pair of hands, from the gaps between what they plugged, and what is too quick for
 * it.
 *
 * @param threshold gaps below it are out of line, seconds; negative infinity where the gaps do not
 *     speak of handling
 * @param median of the gaps that tell the pace, seconds
 * @param gaps how many there are
 */
record Pace(double threshold, double median, int gaps) {

  /** Two ends unplugged and plugged: not below this, seconds. Common practice, no source. */
  static final double HUMAN_S = 15;

  /** A fifth of one ring in 200 honest jobs. */
  static final double CHANCE_OF_RINGING = 0.001;

  /** Fewer gaps show no pace. */
  static final int ENOUGH = 6;

  /** From so many gaps on their spread can be told. */
  private static final int TELLS_SPREAD = 15;

  /** Gaps are handling only if half of them are at least this long, seconds. */
  private static final double HANDLED_S = 2 * HUMAN_S;

  /** An honest pace is never taken as steadier than this, in parts of itself. */
  private static final double LEAST_SPREAD = 0.15;

  /** The same where too few gaps are there to tell: common practice, no source. */
  private static final double LEAST_SPREAD_OF_FEW = 0.4;

  /**
   * The pace of some gaps.
   *
   * @param seconds in order of time
   */
  static Pace of(double[] seconds) {
    if (isHandling(seconds)) {
      return ofHandling(seconds);
    }
    double[] handled = Arrays.stream(seconds).filter(s -> s >= HUMAN_S).toArray();
    return isHandling(handled) && isOneHurry(seconds)
        ? ofHandling(handled)
        : new Pace(Double.NEGATIVE_INFINITY, median(seconds), seconds.length);
  }

  /** Whether most gaps are long enough to plug something in them, and enough to show a pace. */
  static boolean isHandling(double[] seconds) {
    return seconds.length >= ENOUGH && median(seconds) >= HANDLED_S;
  }

  private static double median(double[] seconds) {
    return seconds.length == 0
        ? Double.NaN
        : OrderStats.quantileInPlace(seconds.clone(), seconds.length, 0.5);
  }

  private static Pace ofHandling(double[] seconds) {
    double median = median(seconds);
    double threshold = threshold(seconds.clone(), median);
    return new Pace(threshold < 1 ? Double.NEGATIVE_INFINITY : threshold, median, seconds.length);
  }

  /**
   * Whether the short gaps, where they are the more, come in so few runs that a pace which changes
   * from gap to gap would not bring it about: pairs plugged together alternate with their handling,
   * one spell of hurry does not. Exact chance of as few runs or fewer when all orders are equally
   * likely (runs test: Wald and Wolfowitz 1940, runs of one of the two kinds).
   */
  private static boolean isOneHurry(double[] seconds) {
    int quick = 0;
    int runs = 0;
    for (int i = 0; i < seconds.length; i++) {
      if (seconds[i] < HUMAN_S) {
        quick++;
        runs += i == 0 || seconds[i - 1] >= HUMAN_S ? 1 : 0;
      }
    }
    int slow = seconds.length - quick;
    double all = logChoose(seconds.length, quick);
    double chance = 0;
    for (int r = 1; r <= Math.min(runs, slow + 1); r++) {
      chance += Math.exp(logChoose(quick - 1, r - 1) + logChoose(slow + 1, r) - all);
    }
    return runs > 0 && chance < CHANCE_OF_RINGING;
  }

  /** Logarithm of the number of ways to choose k of n. */
  private static double logChoose(int n, int k) {
    double sum = 0;
    for (int i = 1; i <= Math.min(k, n - k); i++) {
      sum += Math.log((n - Math.min(k, n - k) + i) / (double) i);
    }
    return sum;
  }

  /**
   * Below this a gap is out of line with the pace: short of {@value #HUMAN_S} s or of half the
   * first percentile (common practice, no source), and beyond the alarm level. The gaps are taken
   * as log-normal, their spread from the quartiles, the tenth and the twentieth part, whichever is
   * steadiest, for what is out of line must not widen it.
   */
  private static double threshold(double[] gaps, double median) {
    double spread = Double.POSITIVE_INFINITY;
    for (double share : new double[] {0.25, 0.10, 0.05}) {
      double low = OrderStats.quantileInPlace(gaps, gaps.length, share);
      if (low > 0) {
        spread = Math.min(spread, Math.log(median / low) / Conformity.coverage(1 - share));
      }
    }
    double high = OrderStats.quantileInPlace(gaps, gaps.length, 0.75);
    spread = Math.min(spread, Math.log(high / median) / Conformity.coverage(0.75));
    double level = Conformity.alarmLevel(gaps.length, CHANCE_OF_RINGING, false);
    double least = gaps.length < TELLS_SPREAD ? LEAST_SPREAD_OF_FEW : LEAST_SPREAD;
    double sd = Math.max(least, spread);
    double tooQuickForThese = 0.5 * median * Math.exp(-Conformity.coverage(0.99) * sd);
    return Math.min(Math.max(HUMAN_S, tooQuickForThese), median * Math.exp(-level * sd));
  }
}
