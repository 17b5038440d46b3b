package ferrule.record.chart;

import ferrule.core.optics.Decibels;
import java.util.ArrayList;
import java.util.List;

/**
 * The scale that strips share, dB from left to right.
 *
 * @param low left end, dB; 0, or less if a reading is below zero
 * @param high right end, dB, beyond the highest limit and reading shown
 */
public record LossScale(double low, double high) {

  /** Beyond these a reading is drawn at the end of the scale, with an arrow. */
  private static final double LOWEST_DB = -5;

  private static final double HIGHEST_DB = 60;

  private static final double LEAST_SPAN_DB = 1;

  /**
   * @throws IllegalArgumentException if it has no length
   */
  public LossScale {
    if (!(high > low)) {
      throw new IllegalArgumentException("A scale from " + low + " to " + high);
    }
  }

  /** The scale that holds all of some strips: ends at whole or half decibels, at least 1 dB. */
  public static LossScale of(Iterable<LossMark> marks) {
    double low = 0;
    double high = LEAST_SPAN_DB;
    for (LossMark mark : marks) {
      double u = Double.isNaN(mark.expandedDb()) ? 0 : mark.expandedDb();
      if (!Double.isNaN(mark.limitDb())) {
        high = Math.max(high, Math.min(HIGHEST_DB, mark.limitDb() * 1.12));
      }
      if (!Double.isNaN(mark.lossDb())) {
        high = Math.max(high, Math.min(HIGHEST_DB, mark.lossDb() + u));
        if (mark.lossDb() < 0) {
          low = Math.min(low, Math.max(LOWEST_DB, mark.lossDb() - u));
        }
      }
      if (!Double.isNaN(mark.expectedDb())) {
        high = Math.max(high, Math.min(HIGHEST_DB, mark.expectedDb() + 2 * mark.expectedSdDb()));
      }
    }
    return new LossScale(Math.floor(low * 2) / 2, Math.ceil(high * 2) / 2);
  }

  /** Where a loss lies on a line of some width, ends included; kept within the line. */
  double x(double lossDb, double width) {
    return Math.max(0, Math.min(1, (lossDb - low) / (high - low))) * width;
  }

  /** Whether a loss lies on the scale. */
  boolean holds(double lossDb) {
    return lossDb >= low && lossDb <= high;
  }

  /** Round values to mark, from low to high. */
  List<Double> ticks() {
    double span = high - low;
    double step = span <= 2.5 ? 0.5 : span <= 6 ? 1 : span <= 12 ? 2 : span <= 30 ? 5 : 10;
    List<Double> ticks = new ArrayList<>();
    for (double k = Math.ceil(low / step); k * step <= high + 1e-9; k++) {
      ticks.add(k * step);
    }
    return ticks;
  }

  /** "-0.5", "0", "2": a tick's label. */
  static String tickLabel(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : oneDecimal(value);
  }

  private static String oneDecimal(double value) {
    String shown = Decibels.shown(value);
    return shown.endsWith("0") ? shown.substring(0, shown.length() - 1) : shown;
  }
}
