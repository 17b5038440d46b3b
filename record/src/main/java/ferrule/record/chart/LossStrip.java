package ferrule.record.chart;

import ferrule.core.uncertainty.Decision;

/**
 * One reading as a strip: from 0 dB to beyond the limit, the expected loss as a pale field (mean
 * and two spreads), the limit as a heavy upright with hatching beyond it, the reading as a diamond
 * with a whisker for its uncertainty (k = 2). The diamond is filled if the reading is believed, and
 * hollow if a doubt holds it back. Several strips share one {@link LossScale}.
 */
public final class LossStrip {

  /** Room left and right of the scale, so that marks at its ends are whole, CSS pixels. */
  public static final double SIDE = 6;

  private LossStrip() {}

  /**
   * The strip of one reading.
   *
   * @param id unique on the page
   * @param mark the reading
   * @param scale shared by neighbours
   * @param width CSS pixels, at least 40
   * @param height CSS pixels, at least 10
   */
  public static String svg(String id, LossMark mark, LossScale scale, double width, double height) {
    Svg svg = Svg.described(id, "strip", width, height, mark.label(), mark.described());
    draw(svg, mark, scale, SIDE, 0, width - 2 * SIDE, height);
    return svg.close();
  }

  /**
   * The scale alone, to stand over or under strips of the same width.
   *
   * @param id unique on the page
   * @param scale shared by the strips
   * @param width CSS pixels, as the strips have it
   */
  public static String axis(String id, LossScale scale, double width) {
    Svg svg =
        Svg.described(
            id,
            "strip-axis",
            width,
            14,
            "Scale",
            "From "
                + LossScale.tickLabel(scale.low())
                + " to "
                + LossScale.tickLabel(scale.high())
                + " dB");
    ticks(svg, scale, SIDE, 10, width - 2 * SIDE, 11, 14);
    return svg.close();
  }

  /** The marks of a scale with their values above them. */
  public static void ticks(
      Pen pen, LossScale scale, double x, double textY, double width, double from, double to) {
    Shape lines = new Shape();
    for (double tick : scale.ticks()) {
      double at = x + scale.x(tick, width);
      lines.line(at, from, at, to);
      pen.text("strip-tick", at, textY, Pen.Anchor.MIDDLE, LossScale.tickLabel(tick));
    }
    pen.shape("strip-rule", lines, Paint.line(Paint.INK, 0.6));
  }

  /**
   * Draws a strip into a box.
   *
   * @param x left end of the scale; marks may reach {@link #SIDE} beyond it
   * @param width length of the scale
   */
  public static void draw(
      Pen pen, LossMark mark, LossScale scale, double x, double y, double width, double height) {
    double middle = y + height / 2;
    double top = y + height * 0.1;
    double tall = height * 0.8;
    pen.shape(
        "strip-rule",
        new Shape()
            .line(x, middle, x + width, middle)
            .line(x + scale.x(0, width), top, x + scale.x(0, width), top + tall),
        Paint.line(Paint.INK, 0.5, 0.45));
    expected(pen, mark, scale, x, top, width, tall);
    limit(pen, mark, scale, x, top, width, tall);
    reading(pen, mark, scale, x, middle, width, tall);
  }

  private static void expected(
      Pen pen, LossMark mark, LossScale scale, double x, double top, double width, double tall) {
    if (Double.isNaN(mark.expectedDb()) || Double.isNaN(mark.expectedSdDb())) {
      return;
    }
    double left = x + scale.x(mark.expectedDb() - 2 * mark.expectedSdDb(), width);
    double right = x + scale.x(mark.expectedDb() + 2 * mark.expectedSdDb(), width);
    pen.rect("strip-expected", left, top, right - left, tall, Paint.filled(Paint.INK, 0.13));
  }

  private static void limit(
      Pen pen, LossMark mark, LossScale scale, double x, double top, double width, double tall) {
    if (Double.isNaN(mark.limitDb()) || !scale.holds(mark.limitDb())) {
      return;
    }
    double at = x + scale.x(mark.limitDb(), width);
    pen.shape(
        "strip-beyond",
        new Shape().hatch(at, top, x + width - at, tall, 5),
        Paint.line(Paint.INK, 0.6, 0.6));
    pen.shape(
        "strip-limit",
        new Shape().line(at, top - tall * 0.1, at, top + tall * 1.1),
        Paint.line(Paint.INK, 2.4));
  }

  private static void reading(
      Pen pen, LossMark mark, LossScale scale, double x, double middle, double width, double tall) {
    if (Double.isNaN(mark.lossDb())) {
      return;
    }
    double at = x + scale.x(mark.lossDb(), width);
    String hue = hue(mark.decision());
    String classes = "mark-" + mark.decision().word();
    double half = Math.min(4.5, tall * 0.42);
    if (mark.lossDb() > mark.limitDb()) {
      // Clear of the hatching, or the diamond would drown in it on a black-and-white print.
      pen.shape(
          "strip-clear", new Shape().diamond(at, middle, half + 3), Paint.filled(Paint.PAPER));
    }
    if (!Double.isNaN(mark.expandedDb()) && scale.holds(mark.lossDb())) {
      double left = x + scale.x(mark.lossDb() - mark.expandedDb(), width);
      double right = x + scale.x(mark.lossDb() + mark.expandedDb(), width);
      double cap = half * 0.6;
      pen.shape(
          "strip-whisker " + classes + "-line",
          new Shape()
              .line(left, middle, right, middle)
              .line(left, middle - cap, left, middle + cap)
              .line(right, middle - cap, right, middle + cap),
          Paint.line(hue, 1.2));
    }
    if (!scale.holds(mark.lossDb())) {
      double way = mark.lossDb() > scale.high() ? 1 : -1;
      pen.shape(
          "strip-off " + classes + "-line",
          new Shape()
              .line(at - way * 12, middle, at - way * 4, middle)
              .line(at - way * 16, middle - 3, at - way * 12, middle)
              .line(at - way * 16, middle + 3, at - way * 12, middle),
          Paint.line(hue, 1.2));
    }
    pen.shape(
        "strip-mark " + classes + (mark.believed() ? "-fill" : "-line strip-hollow"),
        new Shape().diamond(at, middle, half),
        mark.believed() ? Paint.filled(hue) : Paint.both(Paint.PAPER, hue, 1.4));
  }

  private static String hue(Decision decision) {
    return switch (decision) {
      case ACCEPT -> Paint.BLUE;
      case REJECT -> Paint.VERMILLION;
      case UNDECIDED -> Paint.INK;
    };
  }
}
