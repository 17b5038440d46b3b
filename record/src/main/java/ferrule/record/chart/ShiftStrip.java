package ferrule.record.chart;

import ferrule.core.optics.Decibels;
import ferrule.core.trust.joint.JointEstimate;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import java.util.Collection;

/**
 * The estimated shift of one level of a zero as a strip about 0 dB: the pale field is what an
 * honest zero may be off by, the heavy upright is no shift at all, the diamond is the estimate with
 * a whisker of two standard deviations. The diamond is hollow if a doubt holds the level's readings
 * back. Strips of one zero share one scale.
 */
public final class ShiftStrip {

  private static final double LEAST_REACH_DB = 0.2;

  private ShiftStrip() {}

  /**
   * How far the scale of some shifts reaches to either side, dB: all of every whisker, whole tenths
   * of a dB, at least 0.2.
   */
  public static double reachDb(Collection<LevelShift> shifts) {
    double reach = LEAST_REACH_DB;
    for (LevelShift shift : shifts) {
      reach = Math.max(reach, Math.abs(shift.shiftDb()) + 2 * shift.sdDb());
    }
    return Math.ceil(reach * 10 - 1e-9) / 10;
  }

  /** "-0.31 dB, standard deviation 0.02 dB"; a shift upwards has its sign too. */
  public static String shown(LevelShift shift) {
    return signed(shift.shiftDb())
        + " dB, standard deviation "
        + Decibels.shown(shift.sdDb())
        + " dB";
  }

  private static String signed(double db) {
    String shown = Decibels.shown(db);
    return db > 0 && !shown.equals("0.00") ? "+" + shown : shown;
  }

  /**
   * The strip of one level.
   *
   * @param id unique on the page
   * @param title what it is of: "1310 nm A-B"
   * @param shift the estimate
   * @param reachDb {@link #reachDb} of the strips that stand together
   * @param inDoubt whether a doubt holds its readings back
   * @param width CSS pixels, at least 80
   * @param height CSS pixels, at least 10
   */
  public static String svg(
      String id,
      String title,
      LevelShift shift,
      double reachDb,
      boolean inDoubt,
      double width,
      double height) {
    Svg svg =
        Svg.described(
            id,
            "strip shift",
            width,
            height,
            title,
            "Estimated shift "
                + shown(shift)
                + (inDoubt ? "; a doubt holds its readings back" : "")
                + "; scale "
                + signed(-reachDb)
                + " to "
                + signed(reachDb)
                + " dB");
    double left = LossStrip.SIDE;
    double length = width - 2 * LossStrip.SIDE;
    double middle = height / 2;
    double honest = JointEstimate.HONEST_DB;
    svg.rect(
        "strip-expected",
        x(-honest, reachDb, left, length),
        height * 0.1,
        x(honest, reachDb, left, length) - x(-honest, reachDb, left, length),
        height * 0.8,
        Paint.filled(Paint.INK, 0.13));
    svg.shape(
        "strip-rule",
        new Shape().line(left, middle, left + length, middle),
        Paint.line(Paint.INK, 0.5, 0.45));
    double zero = x(0, reachDb, left, length);
    svg.shape("strip-limit", new Shape().line(zero, 0, zero, height), Paint.line(Paint.INK, 1.6));
    double at = x(shift.shiftDb(), reachDb, left, length);
    double half = Math.min(4.5, height * 0.34);
    double low = x(shift.shiftDb() - 2 * shift.sdDb(), reachDb, left, length);
    double high = x(shift.shiftDb() + 2 * shift.sdDb(), reachDb, left, length);
    double cap = half * 0.7;
    svg.shape(
        "strip-whisker",
        new Shape()
            .line(low, middle, high, middle)
            .line(low, middle - cap, low, middle + cap)
            .line(high, middle - cap, high, middle + cap),
        Paint.line(Paint.INK, 1.2));
    svg.shape(
        "strip-mark" + (inDoubt ? " strip-hollow" : ""),
        new Shape().diamond(at, middle, half),
        inDoubt ? Paint.both(Paint.PAPER, Paint.INK, 1.4) : Paint.filled(Paint.INK));
    return svg.close();
  }

  private static double x(double db, double reachDb, double left, double width) {
    double share = (db + reachDb) / (2 * reachDb);
    return left + width * Math.max(0, Math.min(1, share));
  }
}
