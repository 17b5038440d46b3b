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
      case PROVED -> svg.rect("band-fill", 0, 0, WIDTH, height, "fill=\"#0072B2\"");
      case FAILED -> {
        double gap = Math.max(4, height / 6.0);
        double part = (height - gap) / 2;
        svg.rect("band-fill", 0, 0, WIDTH, part, "fill=\"#D55E00\"");
        svg.rect("band-fill", 0, part + gap, WIDTH, part, "fill=\"#D55E00\"");
      }
      case DOUBTFUL -> {
        svg.path(
            "band-hatch",
            Svg.hatch(0, 0, WIDTH, height, 4),
            "fill=\"none\" stroke=\"#CC79A7\" stroke-width=\"1.8\"");
        svg.rect(
            "band-edge",
            half,
            half,
            WIDTH - EDGE,
            height - EDGE,
            "fill=\"none\" stroke=\"#CC79A7\" stroke-width=\"1\"");
      }
      case OPEN ->
          svg.rect(
              "band-edge",
              half,
              half,
              WIDTH - EDGE,
              height - EDGE,
              "fill=\"none\" stroke=\"currentColor\" stroke-width=\"1\"");
    }
    return svg.close();
  }
}
