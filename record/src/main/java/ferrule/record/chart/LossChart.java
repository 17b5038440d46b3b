package ferrule.record.chart;

import ferrule.core.optics.Decibels;
import ferrule.core.uncertainty.Decision;
import java.util.List;

/** Many readings, one strip under another, on one scale. */
public final class LossChart {

  /** More strips than this are hard to read: use {@link MarginChart}. */
  public static final int MOST_STRIPS = 120;

  private static final double ROW = 13;
  private static final double AXIS = 18;

  private LossChart() {}

  /**
   * The chart of some readings; at most {@link #MOST_STRIPS} are drawn, and what is left out is
   * said.
   *
   * @param id unique on the page
   * @param title what the readings have in common
   * @param marks in the order shown
   * @param width CSS pixels, at least 240
   */
  public static String svg(String id, String title, List<LossMark> marks, double width) {
    return svg(id, title, marks, LossScale.of(marks), width);
  }

  /** The same on a given scale, so that charts of one page can be compared. */
  public static String svg(
      String id, String title, List<LossMark> marks, LossScale scale, double width) {
    List<LossMark> drawn = marks.subList(0, Math.min(MOST_STRIPS, marks.size()));
    int left = marks.size() - drawn.size();
    double labels = 10 + 5.4 * longest(drawn);
    double height = AXIS + ROW * drawn.size() + (left > 0 ? ROW : 2);
    Svg svg = Svg.described(id, "loss-chart", width, height, title, described(marks, scale, left));
    double x = labels + LossStrip.SIDE;
    double wide = width - labels - 2 * LossStrip.SIDE;
    svg.text("strip-tick", labels - 8, 10, Pen.Anchor.END, "dB");
    LossStrip.ticks(svg, scale, x, 10, wide, 12, AXIS - 2);
    double y = AXIS;
    for (LossMark mark : drawn) {
      svg.text("strip-label", labels - 8, y + ROW - 3.5, Pen.Anchor.END, shortened(mark.label()));
      LossStrip.draw(svg, mark, scale, x, y, wide, ROW);
      y += ROW;
    }
    if (left > 0) {
      svg.text(
          "strip-label", x, y + ROW - 3.5, Pen.Anchor.START, "and " + left + " more, not drawn");
    }
    return svg.close();
  }

  private static int longest(List<LossMark> marks) {
    int longest = 4;
    for (LossMark mark : marks) {
      longest = Math.max(longest, shortened(mark.label()).length());
    }
    return longest;
  }

  private static String shortened(String label) {
    int most = 30;
    return label.codePointCount(0, label.length()) <= most
        ? label
        : "…" + label.substring(label.offsetByCodePoints(label.length(), 1 - most));
  }

  private static String described(List<LossMark> marks, LossScale scale, int left) {
    int over = 0;
    int heldBack = 0;
    double least = Double.POSITIVE_INFINITY;
    for (LossMark mark : marks) {
      over += mark.decision() == Decision.REJECT ? 1 : 0;
      heldBack += mark.believed() ? 0 : 1;
      double margin = mark.limitDb() - mark.lossDb();
      if (margin < least) {
        least = margin;
      }
    }
    return marks.size()
        + " readings on a scale from "
        + LossScale.tickLabel(scale.low())
        + " to "
        + LossScale.tickLabel(scale.high())
        + " dB; "
        + over
        + " rejected, "
        + heldBack
        + " held back by a doubt"
        + (Double.isInfinite(least) ? "" : "; least margin " + Decibels.shown(least) + " dB")
        + (left > 0 ? "; " + left + " not drawn" : "");
  }
}
