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
    double half = EDGE / 2;
    switch (standing) {
      case PROVED -> svg.rect("band-fill", 0, 0, WIDTH, height, Paint.filled(Paint.BLUE));
      case FAILED -> {
        double gap = Math.max(4, height / 6.0);
        double part = (height - gap) / 2;
        svg.rect("band-fill", 0, 0, WIDTH, part, Paint.filled(Paint.VERMILLION));
        svg.rect("band-fill", 0, part + gap, WIDTH, part, Paint.filled(Paint.VERMILLION));
      }
      case DOUBTFUL -> {
        svg.shape(
            "band-hatch", new Shape().hatch(0, 0, WIDTH, height, 4), Paint.line(Paint.PURPLE, 1.8));
        svg.rect("band-edge", half, half, WIDTH - EDGE, height - EDGE, Paint.line(Paint.PURPLE, 1));
      }
      case OPEN ->
          svg.rect("band-edge", half, half, WIDTH - EDGE, height - EDGE, Paint.line(Paint.INK, 1));
    }
    return svg.close();
  }
}
