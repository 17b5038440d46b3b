package ferrule.record.chart;

import ferrule.core.optics.Decibels;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * How far many readings lie from their limits, one line for each place or link: a thin line from
 * the least margin to the most, a box over the middle half, an upright at the median. The limit is
 * the heavy upright on the right, with hatching beyond, as on a {@link LossStrip}; every reading
 * over its limit is a diamond of its own.
 */
public final class MarginChart {

  /** More diamonds than this on one line are not told apart; their number stands beside them. */
  private static final int MOST_DIAMONDS = 40;

  private static final double ROW = 17;
  private static final double AXIS = 18;
  private static final double INSIDE_MOST_DB = 20;
  private static final double BEYOND_MOST_DB = 10;

  private MarginChart() {}

  /** One line of the chart: the margins of the readings of one place or link. */
  public static final class Line {
    private final String label;
    private final double[] marginsDb;

    /**
     * @param label name of the place or link
     * @param marginsDb limit less loss of each reading, dB; NaN is left out
     */
    public Line(String label, double[] marginsDb) {
      this.label = label;
      this.marginsDb = Arrays.stream(marginsDb).filter(m -> !Double.isNaN(m)).sorted().toArray();
    }

    /** Name of the place or link. */
    public String label() {
      return label;
    }

    /** Whether there is nothing to draw. */
    public boolean isEmpty() {
      return marginsDb.length == 0;
    }

    private double quantile(double share) {
      return marginsDb[(int) Math.round(share * (marginsDb.length - 1))];
    }
  }

  /**
   * The chart.
   *
   * @param id unique on the page
   * @param title what the lines are
   * @param lines in the order shown, at least one
   * @param width CSS pixels, at least 320
   */
  public static String svg(String id, String title, List<Line> lines, double width) {
    Svg svg =
        Svg.described(id, "margin-chart", width, height(lines.size()), title, described(lines));
    draw(svg, lines, width);
    return svg.close();
  }

  /** Height of a chart of so many lines, CSS pixels. */
  public static double height(int lines) {
    return AXIS + ROW * lines + 4;
  }

  /**
   * Draws the chart with its upper left corner at 0, 0.
   *
   * @param lines in the order shown, at least one
   * @param width CSS pixels, at least 320
   */
  public static void draw(Pen pen, List<Line> lines, double width) {
    double inside = 0.5;
    double beyond = 0.3;
    for (Line line : lines) {
      if (line.marginsDb.length > 0) {
        inside = Math.max(inside, Math.min(INSIDE_MOST_DB, line.quantile(1)));
        beyond = Math.max(beyond, Math.min(BEYOND_MOST_DB, -line.quantile(0)));
      }
    }
    // Minus the margin runs from left to right, so that the limit stands on the right as elsewhere.
    LossScale scale =
        new LossScale(-Math.ceil(inside * 2) / 2, Math.max(0.5, Math.ceil(beyond * 2) / 2));
    double labels = Math.min(width * 0.4, 16 + 5.6 * longest(lines));
    double counts = 76;
    double x = labels + LossStrip.SIDE;
    double wide = width - labels - counts - 2 * LossStrip.SIDE;
    double height = height(lines.size());
    axis(pen, scale, x, wide, labels);
    double limit = x + scale.x(0, wide);
    pen.shape(
        "strip-beyond",
        new Shape().hatch(limit, AXIS, x + wide - limit, height - AXIS, 6),
        Paint.line(Paint.INK, 0.5, 0.45));
    double y = AXIS;
    for (Line line : lines) {
      line(pen, line, scale, x, y, wide, labels, width);
      y += ROW;
    }
    pen.shape(
        "strip-limit",
        new Shape().line(limit, AXIS - 2, limit, height),
        Paint.line(Paint.INK, 2.4));
  }

  private static void axis(Pen pen, LossScale scale, double x, double wide, double labels) {
    pen.text("strip-tick", labels - 8, 10, Pen.Anchor.END, "margin, dB");
    Shape ticks = new Shape();
    for (double tick : scale.ticks()) {
      double at = x + scale.x(tick, wide);
      ticks.line(at, 12, at, AXIS - 2);
      pen.text(
          "strip-tick",
          at,
          10,
          Pen.Anchor.MIDDLE,
          tick == 0 ? "limit" : LossScale.tickLabel(0 - tick));
    }
    pen.shape("strip-rule", ticks, Paint.line(Paint.INK, 0.6));
  }

  private static void line(
      Pen pen,
      Line line,
      LossScale scale,
      double x,
      double y,
      double wide,
      double labels,
      double width) {
    double middle = y + ROW / 2;
    pen.text(
        "strip-label",
        labels - 8,
        middle + 3.5,
        Pen.Anchor.END,
        shortened(line.label(), (labels - 16) / 5.6));
    double[] margins = line.marginsDb;
    long over = Arrays.stream(margins).filter(m -> m < 0).count();
    pen.text(
        "strip-label",
        width - 2,
        middle + 3.5,
        Pen.Anchor.END,
        margins.length == 0
            ? "no readings"
            : String.format(Locale.ROOT, "%d", margins.length)
                + (over > 0 ? ", " + over + " over" : ""));
    if (margins.length == 0) {
      return;
    }
    double far = x + scale.x(-line.quantile(1), wide);
    double near = x + scale.x(-line.quantile(0), wide);
    double boxLeft = x + scale.x(-line.quantile(0.75), wide);
    double boxRight = x + scale.x(-line.quantile(0.25), wide);
    double median = x + scale.x(-line.quantile(0.5), wide);
    pen.shape(
        "margin-range",
        new Shape()
            .line(far, middle, near, middle)
            .line(far, middle - 2.5, far, middle + 2.5)
            .line(near, middle - 2.5, near, middle + 2.5),
        Paint.line(Paint.INK, 0.8));
    pen.rect(
        "margin-box",
        boxLeft,
        middle - 4,
        Math.max(1, boxRight - boxLeft),
        8,
        Paint.both("#B9D3E3", Paint.BLUE, 0.8));
    pen.shape(
        "margin-median",
        new Shape().line(median, middle - 5, median, middle + 5),
        Paint.line(Paint.BLUE, 2));
    Shape diamonds = new Shape();
    for (int i = 0; i < Math.min(over, MOST_DIAMONDS); i++) {
      diamonds.diamond(x + scale.x(-margins[i], wide), middle, 3.6);
    }
    if (over > 0) {
      pen.shape("strip-mark mark-reject-fill", diamonds, Paint.filled(Paint.VERMILLION));
    }
  }

  private static int longest(List<Line> lines) {
    int longest = 8;
    for (Line line : lines) {
      longest = Math.max(longest, line.label().length());
    }
    return longest;
  }

  private static String shortened(String label, double letters) {
    int most = (int) Math.max(6, Math.round(letters));
    return label.codePointCount(0, label.length()) <= most
        ? label
        : label.substring(0, label.offsetByCodePoints(0, most - 1)) + "…";
  }

  private static String described(List<Line> lines) {
    StringBuilder words = new StringBuilder();
    for (Line line : lines) {
      words.append(words.isEmpty() ? "" : "; ").append(line.label()).append(": ");
      if (line.marginsDb.length == 0) {
        words.append("no readings");
        continue;
      }
      words
          .append(line.marginsDb.length)
          .append(" readings, least margin ")
          .append(Decibels.shown(line.quantile(0)))
          .append(" dB, median ")
          .append(Decibels.shown(line.quantile(0.5)))
          .append(" dB, most ")
          .append(Decibels.shown(line.quantile(1)))
          .append(" dB");
    }
    return words.toString();
  }
}
