package ferrule.record.chart;

import ferrule.core.trust.Standing;

/**
 * The short upright band beside an entry. Its form says the standing before its colour does: proved
 * solid, failed broken in the middle, doubtful hatched, open hollow. The word stands beside it,
 * always; so the drawing itself is hidden from readers of speech.
 */
public final class Band {

  /** Width, CSS pixels. */
  public static final int WIDTH = 8;

  private static final double EDGE = 1;

  private Band() {}

  /**
   * The band of a standing.
   *
   * @param standing its form
   * @param height CSS pixels, at least 12
   */
  public static String svg(Standing standing, int height) {
    Svg svg = Svg.decorative("band band-" + standing.word(), WIDTH, height);
    draw(svg, standing, WIDTH, height);
    return svg.close();
  }

  /**
   * Draws the band with its upper left corner at 0, 0.
   *
   * @param width CSS pixels, at least 4
   * @param height CSS pixels, at least 10
   */
  public static void draw(Pen pen, Standing standing, double width, double height) {
    double half = EDGE / 2;
    switch (standing) {
      case PROVED -> pen.rect("band-fill", 0, 0, width, height, Paint.filled(Paint.BLUE));
      case FAILED -> {
        double gap = Math.max(4, height / 6);
        double part = (height - gap) / 2;
        pen.rect("band-fill", 0, 0, width, part, Paint.filled(Paint.VERMILLION));
        pen.rect("band-fill", 0, part + gap, width, part, Paint.filled(Paint.VERMILLION));
      }
      case DOUBTFUL -> {
        pen.shape(
            "band-hatch", new Shape().hatch(0, 0, width, height, 4), Paint.line(Paint.PURPLE, 1.8));
        edge(pen, half, width, height, Paint.line(Paint.PURPLE, EDGE));
      }
      case OPEN -> edge(pen, half, width, height, Paint.line(Paint.INK, EDGE));
    }
  }

  private static void edge(Pen pen, double half, double width, double height, Paint paint) {
    pen.rect("band-edge", half, half, width - EDGE, height - EDGE, paint);
  }
}
