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

  /**
   * One line of the chart.
   *
   * @param label name of the place or link
   * @param marginsDb limit less loss of each reading, dB; NaN is left out
   */
  public record Line(String label, double[] marginsDb) {

    /** Copies the margins, sorted, without NaN. */
    public Line {
      marginsDb = Arrays.stream(marginsDb).filter(m -> !Double.isNaN(m)).sorted().toArray();
    }

    /** The margins, ascending. */
    @Override
    public double[] marginsDb() {
      return marginsDb.clone();
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
    double height = AXIS + ROW * lines.size() + 4;
    Svg svg = Svg.described(id, "margin-chart", width, height, title, described(lines));
    axis(svg, scale, x, wide, labels);
    double limit = x + scale.x(0, wide);
    svg.path(
        "strip-beyond",
        Svg.hatch(limit, AXIS, x + wide - limit, height - AXIS, 6),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.5\" stroke-opacity=\"0.45\"");
    double y = AXIS;
    for (Line line : lines) {
      line(svg, line, scale, x, y, wide, labels, width);
      y += ROW;
    }
    svg.path(
        "strip-limit",
        Svg.line(limit, AXIS - 2, limit, height),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.4\"");
    return svg.close();
  }

  private static void axis(Svg svg, LossScale scale, double x, double wide, double labels) {
    svg.text("strip-tick", labels - 8, 10, "end", "margin, dB");
    StringBuilder ticks = new StringBuilder();
    for (double tick : scale.ticks()) {
      double at = x + scale.x(tick, wide);
      ticks.append(Svg.line(at, 12, at, AXIS - 2));
      svg.text("strip-tick", at, 10, "middle", tick == 0 ? "limit" : LossScale.tickLabel(0 - tick));
    }
    svg.path(
        "strip-rule",
        ticks.toString(),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.6\"");
  }

  private static void line(
      Svg svg,
      Line line,
      LossScale scale,
      double x,
      double y,
      double wide,
      double labels,
      double width) {
    double middle = y + ROW / 2;
    svg.text(
        "strip-label",
        labels - 8,
        middle + 3.5,
        "end",
        shortened(line.label(), (labels - 16) / 5.6));
    double[] margins = line.marginsDb;
    long over = Arrays.stream(margins).filter(m -> m < 0).count();
    svg.text(
        "strip-label",
        width - 2,
        middle + 3.5,
        "end",
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
    svg.path(
        "margin-range",
        Svg.line(far, middle, near, middle)
            + Svg.line(far, middle - 2.5, far, middle + 2.5)
            + Svg.line(near, middle - 2.5, near, middle + 2.5),
        "fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.8\"");
    svg.rect(
        "margin-box",
        boxLeft,
        middle - 4,
        Math.max(1, boxRight - boxLeft),
        8,
        "fill=\"#B9D3E3\" stroke=\"#0072B2\" stroke-width=\"0.8\"");
    svg.path(
        "margin-median",
        Svg.line(median, middle - 5, median, middle + 5),
        "fill=\"none\" stroke=\"#0072B2\" stroke-width=\"2\"");
    StringBuilder diamonds = new StringBuilder();
    for (int i = 0; i < Math.min(over, MOST_DIAMONDS); i++) {
      diamonds.append(Svg.diamond(x + scale.x(-margins[i], wide), middle, 3.6));
    }
    if (over > 0) {
      svg.path(
          "strip-mark mark-reject-fill", diamonds.toString(), "fill=\"#D55E00\" stroke=\"none\"");
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
