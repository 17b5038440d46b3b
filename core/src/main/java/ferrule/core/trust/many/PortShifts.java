package ferrule.core.trust.many;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;

/**
 * Finds runs of ports that fit the schedule better moved by one or two ports.
 *
 * <p>Each port has a score for each lag from -2 to 2: the mean over its fibres of {@code
 * -min(z^2/2, 8)}, where {@code z} is the misfit to the link so many ports further on. The best
 * sequence of lags along the row is found by dynamic programming (Viterbi 1967), changing the lag
 * costing 3, at the end of a panel 1. At the end of a panel a moved port may have been read from
 * its other end, or from none of the row's ports: score -4.
 *
 * <p>A run rings if at least three of its ports fit the other port and not their own (beyond three
 * deviations), and its log-likelihood ratio, less what the changes cost, exceeds {@code ln(looks /
 * 0.0002)}, where the looks are all runs of all rows at all lags: were all well, one run would do
 * so in at most 1 of 200 jobs (Markov's inequality: the expected likelihood ratio is 1). By losses
 * alone, at least two ports must lose less than their own glass lets expect, for much else raises a
 * loss.
 */
final class PortShifts {

  private static final int[] LAGS = {0, 1, -1, 2, -2};
  private static final double CAP = 8;
  private static final double ELSEWHERE = -4;
  private static final double CHANGE = 3;
  private static final double CHANGE_AT_PANEL_END = 1;
  private static final double TELLING = 4.5;
  private static final int LEAST_TELLING = 3;
  private static final int LEAST_LOW_LOSSES = 2;

  /** Chance that it rings on a perfect job: its part of one in 200 for all that blocks. */
  static final double CHANCE = 0.0002;

  private static final double HAIR = 1e-9;

  private final LengthProfile profile;
  private final FibreMisfit misfit;
  private final double rings;

  private PortShifts(LengthProfile profile, FibreMisfit misfit, List<PortRow> rows) {
    this.profile = profile;
    this.misfit = misfit;
    this.rings = Math.log((1.0 + looks(rows)) / CHANCE);
  }

  /** All runs of all rows at all lags. */
  static long looks(List<PortRow> rows) {
    long looks = 0;
    for (PortRow row : rows) {
      looks += 2 * row.size() * (row.size() + 1L);
    }
    return looks;
  }

  /** All runs that ring, the most certain first. Runs may overlap where rows share links. */
  static List<PortShift> in(LengthProfile profile, FibreMisfit misfit, List<PortRow> rows) {
    PortShifts shifts = new PortShifts(profile, misfit, rows);
    List<PortShift> found = new ArrayList<>();
    for (PortRow row : rows) {
      shifts.look(row, found);
    }
    found.sort(Comparator.comparingDouble(PortShift::logRatio).reversed());
    return found;
  }

  private void look(PortRow row, List<PortShift> found) {
    int size = row.size();
    if (size < LEAST_TELLING) {
      return;
    }
    double[][] scores = new double[LAGS.length][];
    scores[0] = new double[size];
    boolean any = false;
    for (int at = 0; at < size; at++) {
      scores[0][at] = score(row, at, 0);
      any |= scores[0][at] < -TELLING;
    }
    // Where every port fits its own schedule nothing can fit better.
    if (!any) {
      return;
    }
    for (int k = 1; k < LAGS.length; k++) {
      scores[k] = new double[size];
      for (int at = 0; at < size; at++) {
        scores[k][at] = score(row, at, LAGS[k]);
      }
    }
    int[] path = path(row, scores);
    for (int from = 0; from < size; ) {
      int to = from + 1;
      while (to < size && path[to] == path[from]) {
        to++;
      }
      if (path[from] != 0) {
        consider(row, from, to, path[from], scores, found);
      }
      from = to;
    }
  }

  private double score(PortRow row, int at, int lag) {
    int link = row.links()[at];
    double sum = 0;
    int fibres = 0;
    for (int slot = profile.firstSlot(link); slot < profile.endSlot(link); slot++) {
      double own = misfit.of(slot, link);
      if (!Double.isNaN(own)) {
        sum += lag == 0 ? -half(own) : score(row, at, lag, slot);
        fibres++;
      }
    }
    return fibres == 0 ? 0 : sum / fibres;
  }

  private double score(PortRow row, int at, int lag, int slot) {
    if (!row.overEnd(at, lag)) {
      double z = misfit.of(slot, row.links()[at + lag]);
      return Double.isNaN(z) ? ELSEWHERE : -half(z);
    }
    double round =
        Math.max(
            fit(row, row.round(at, lag), slot),
            fit(row, Math.floorMod(at + lag, row.size()), slot));
    return Math.max(ELSEWHERE, Math.max(fit(row, at + lag, slot), round - CHANGE_AT_PANEL_END));
  }

  private double fit(PortRow row, int at, int slot) {
    double z = at < 0 || at >= row.size() ? Double.NaN : misfit.of(slot, row.links()[at]);
    return Double.isNaN(z) ? ELSEWHERE : -half(z);
  }

  private static double half(double z) {
    return Math.min(CAP, z * z / 2);
  }

  private static double change(PortRow row, int before) {
    return row.endsBefore(before) ? CHANGE_AT_PANEL_END : CHANGE;
  }

  /** For every port the index of its lag. Of equally good paths the one that moves fewer ports. */
  private static int[] path(PortRow row, double[][] scores) {
    int size = row.size();
    byte[][] before = new byte[LAGS.length][size];
    double[] best = new double[LAGS.length];
    for (int k = 0; k < LAGS.length; k++) {
      best[k] = scores[k][0] - (k == 0 ? 0 : CHANGE_AT_PANEL_END);
    }
    for (int at = 1; at < size; at++) {
      double change = change(row, at);
      double[] next = new double[LAGS.length];
      for (int k = 0; k < LAGS.length; k++) {
        double most = Double.NEGATIVE_INFINITY;
        for (int j = 0; j < LAGS.length; j++) {
          double value = best[j] - (j == k ? 0 : change);
          if (value > most + HAIR) {
            most = value;
            before[k][at] = (byte) j;
          }
        }
        next[k] = most + scores[k][at];
      }
      best = next;
    }
    int last = 0;
    for (int k = 1; k < LAGS.length; k++) {
      last =
          best[k] - CHANGE_AT_PANEL_END > best[last] - (last == 0 ? 0 : CHANGE_AT_PANEL_END) + HAIR
              ? k
              : last;
    }
    int[] path = new int[size];
    for (int at = size - 1; at >= 0; at--) {
      path[at] = last;
      last = before[last][at];
    }
    return path;
  }

  private void consider(
      PortRow row, int from, int to, int k, double[][] scores, List<PortShift> found) {
    double ratio = -change(row, from) - change(row, to);
    int telling = 0;
    int lengths = 0;
    int low = 0;
    for (int at = from; at < to; at++) {
      ratio += scores[k][at] - scores[0][at];
      if (scores[0][at] < -TELLING && scores[k][at] > -TELLING && !row.overEnd(at, LAGS[k])) {
        telling++;
        int slot = profile.firstSlot(row.links()[at]);
        lengths += profile.hasLength(slot) ? 1 : 0;
        low += misfit.of(slot, row.links()[at]) < 0 ? 1 : 0;
      }
    }
    if (telling >= LEAST_TELLING
        && ratio > rings
        && (lengths >= LEAST_TELLING || low >= LEAST_LOW_LOSSES)) {
      found.add(
          new PortShift(row, from, to, LAGS[k], reach(row, from, to, LAGS[k]), telling, ratio));
    }
  }

  /** All fibres of the run that were read, but for any that plainly fits its own port. */
  private BitSet reach(PortRow row, int from, int to, int lag) {
    BitSet slots = new BitSet();
    for (int at = from; at < to; at++) {
      int link = row.links()[at];
      for (int slot = profile.firstSlot(link); slot < profile.endSlot(link); slot++) {
        double own = misfit.of(slot, link);
        double odds = row.overEnd(at, lag) ? -2 : -6;
        boolean plainlyOwn = !Double.isNaN(own) && score(row, at, lag, slot) + half(own) < odds;
        if (profile.isRead(slot) && !plainlyOwn) {
          slots.set(slot);
        }
      }
    }
    return slots;
  }
}
