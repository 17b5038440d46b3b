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
  static final double SIDE = 6;

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

  static void ticks(
      Svg svg, LossScale scale, double x, double textY, double width, double from, double to) {
    StringBuilder lines = new StringBuilder();
    for (double tick : scale.ticks()) {
      double at = x + scale.x(tick, width);
      lines.append(Svg.line(at, from, at, to));
      svg.text("strip-tick", at, textY, "middle", LossScale.tickLabel(tick));
    }
    svg.path(
        "strip-rule",
        lines.toString(),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.6\"");
  }

  /** Draws a strip into a box. */
  static void draw(
      Svg svg, LossMark mark, LossScale scale, double x, double y, double width, double height) {
    double middle = y + height / 2;
    double top = y + height * 0.1;
    double tall = height * 0.8;
    svg.path(
        "strip-rule",
        Svg.line(x, middle, x + width, middle)
            + Svg.line(x + scale.x(0, width), top, x + scale.x(0, width), top + tall),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.5\" stroke-opacity=\"0.45\"");
    expected(svg, mark, scale, x, top, width, tall);
    limit(svg, mark, scale, x, top, width, tall);
    reading(svg, mark, scale, x, middle, width, tall);
  }

  private static void expected(
      Svg svg, LossMark mark, LossScale scale, double x, double top, double width, double tall) {
    if (Double.isNaN(mark.expectedDb()) || Double.isNaN(mark.expectedSdDb())) {
      return;
    }
    double left = x + scale.x(mark.expectedDb() - 2 * mark.expectedSdDb(), width);
    double right = x + scale.x(mark.expectedDb() + 2 * mark.expectedSdDb(), width);
    svg.rect(
        "strip-expected",
        left,
        top,
        right - left,
        tall,
        "fill=\"currentColor\" fill-opacity=\"0.13\"");
  }

  private static void limit(
      Svg svg, LossMark mark, LossScale scale, double x, double top, double width, double tall) {
    if (Double.isNaN(mark.limitDb()) || !scale.holds(mark.limitDb())) {
      return;
    }
    double at = x + scale.x(mark.limitDb(), width);
    svg.path(
        "strip-beyond",
        Svg.hatch(at, top, x + width - at, tall, 5),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.6\" stroke-opacity=\"0.6\"");
    svg.path(
        "strip-limit",
        Svg.line(at, top - tall * 0.1, at, top + tall * 1.1),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.4\"");
  }

  private static void reading(
      Svg svg, LossMark mark, LossScale scale, double x, double middle, double width, double tall) {
    if (Double.isNaN(mark.lossDb())) {
      return;
    }
    double at = x + scale.x(mark.lossDb(), width);
    String hue = hue(mark.decision());
    String classes = "mark-" + mark.decision().word();
    double half = Math.min(4.5, tall * 0.42);
    if (!Double.isNaN(mark.expandedDb()) && scale.holds(mark.lossDb())) {
      double left = x + scale.x(mark.lossDb() - mark.expandedDb(), width);
      double right = x + scale.x(mark.lossDb() + mark.expandedDb(), width);
      double cap = half * 0.6;
      svg.path(
          "strip-whisker " + classes + "-line",
          Svg.line(left, middle, right, middle)
              + Svg.line(left, middle - cap, left, middle + cap)
              + Svg.line(right, middle - cap, right, middle + cap),
          "fill=\"none\" stroke=\"" + hue + "\" stroke-width=\"1.2\"");
    }
    if (!scale.holds(mark.lossDb())) {
      double way = mark.lossDb() > scale.high() ? 1 : -1;
      svg.path(
          "strip-off " + classes + "-line",
          Svg.line(at - way * 12, middle, at - way * 4, middle)
              + Svg.line(at - way * 16, middle - 3, at - way * 12, middle)
              + Svg.line(at - way * 16, middle + 3, at - way * 12, middle),
          "fill=\"none\" stroke=\"" + hue + "\" stroke-width=\"1.2\"");
    }
    svg.path(
        "strip-mark " + classes + (mark.believed() ? "-fill" : "-line strip-hollow"),
        Svg.diamond(at, middle, half),
        mark.believed()
            ? "fill=\"" + hue + "\" stroke=\"none\""
            : "fill=\"#FFFFFF\" stroke=\"" + hue + "\" stroke-width=\"1.4\"");
  }

  private static String hue(Decision decision) {
    return switch (decision) {
      case ACCEPT -> "#0072B2";
      case REJECT -> "#D55E00";
      case UNDECIDED -> "currentColor";
    };
  }
}
