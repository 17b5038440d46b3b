package ferrule.record.chart;

import ferrule.core.trust.Trust;
import ferrule.core.trust.TrustSpan;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * How far a zero could be trusted when, as a line of time from left to right. The form of a stretch
 * says its trust before its colour does: fresh a thin solid bar, verified a solid one, ageing
 * hollow, doubtful hatched, broken split along its middle. The words stand beside it, always; so
 * the drawing itself is hidden from readers of speech.
 */
public final class TrustLine {

  private static final double EDGE = 1;

  private TrustLine() {}

  /**
   * The line of some spans that follow each other.
   *
   * @param spans at least one
   * @param width CSS pixels, at least 40
   * @param height CSS pixels, at least 8
   */
  public static String svg(List<TrustSpan> spans, double width, double height) {
    Svg svg = Svg.decorative("trust-line", width, height);
    Instant start = spans.get(0).from();
    Instant end = spans.get(spans.size() - 1).to();
    double whole = Math.max(1, seconds(start, end));
    double x = 0;
    for (TrustSpan span : spans) {
      double to = width * seconds(start, span.to()) / whole;
      draw(svg, span.trust(), x, to - x, height);
      x = to;
    }
    return svg.close();
  }

  /** The form of one trust alone, for a key. */
  public static String sample(Trust trust, double width, double height) {
    Svg svg = Svg.decorative("trust-line", width, height);
    draw(svg, trust, 0, width, height);
    return svg.close();
  }

  private static double seconds(Instant from, Instant to) {
    return Duration.between(from, to).getSeconds();
  }

  private static void draw(Pen pen, Trust trust, double x, double width, double height) {
    // A hair between neighbours, so that two of one form stay two; short ones stay visible.
    double shown = Math.max(1, width - 1);
    switch (trust) {
      case FRESH ->
          pen.rect("band-fill", x, height / 3, shown, height / 3, Paint.filled(Paint.BLUE));
      case VERIFIED -> pen.rect("band-fill", x, 0, shown, height, Paint.filled(Paint.BLUE));
      case AGEING -> edge(pen, "band-edge", x, shown, height, Paint.line(Paint.INK, EDGE));
      case DOUBTFUL -> {
        pen.shape(
            "band-hatch", new Shape().hatch(x, 0, shown, height, 4), Paint.line(Paint.PURPLE, 1.8));
        edge(pen, "band-hatch", x, shown, height, Paint.line(Paint.PURPLE, EDGE));
      }
      case BROKEN -> {
        double bar = height * 0.34;
        pen.rect("broken-fill", x, 0, shown, bar, Paint.filled(Paint.VERMILLION));
        pen.rect("broken-fill", x, height - bar, shown, bar, Paint.filled(Paint.VERMILLION));
      }
    }
  }

  private static void edge(
      Pen pen, String classes, double x, double width, double height, Paint paint) {
    pen.rect(classes, x + EDGE / 2, EDGE / 2, Math.max(0, width - EDGE), height - EDGE, paint);
  }
}
