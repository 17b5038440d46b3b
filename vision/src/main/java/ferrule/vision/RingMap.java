package ferrule.vision;

/**
 * How well the brightness about a place changes along rays of a ring of one known size: the mean of
 * slopes along the rays, each capped so that a few strong features cannot outvote the round. Looked
 * up in a picture made so coarse that the ring measures a dozen pixels.
 */
final class RingMap {
  private static final int RAYS = 32;
  private static final double[] COS = new double[RAYS];
  private static final double[] SIN = new double[RAYS];

  static {
    for (int k = 0; k < RAYS; k++) {
      COS[k] = Math.cos(2 * Math.PI * k / RAYS);
      SIN[k] = Math.sin(2 * Math.PI * k / RAYS);
    }
  }

  private final int factor;
  private final int w;
  private final int h;
  private final float[] gx;
  private final float[] gy;
  private final double rx;
  private final double ry;

  /**
   * A ring at a place of the picture.
   *
   * @param x centre, px
   * @param y centre, px
   * @param score mean slope of its rays within the picture, -1 to 1; above 0 where it is brighter
   *     outside
   * @param visible share of its rays that lie in the picture, 0 to 1
   */
  record Ring(double x, double y, double score, double visible) {}

  /**
   * For rings of one size.
   *
   * @param rx half their width, px
   * @param ry half their height, px
   * @param coarsePx about their radius in the coarse picture, px
   */
  RingMap(Grey grey, double rx, double ry, double coarsePx) {
    factor = (int) Math.max(1, Math.round(Math.sqrt(rx * ry) / coarsePx));
    this.rx = rx / factor;
    this.ry = ry / factor;
    Grey small = grey.reduced(factor).blurred(1.0);
    CappedSlopes slopes = new CappedSlopes(small);
    w = slopes.width;
    h = slopes.height;
    gx = slopes.across;
    gy = slopes.down;
  }

  /** The ring of one size of tone about a place of the coarse picture. */
  private Ring at(double cx, double cy, double size) {
    double sum = 0;
    int inside = 0;
    for (int k = 0; k < RAYS; k++) {
      double c = COS[k];
      double s = SIN[k];
      int x = (int) Math.floor(cx + size * rx * c + 0.5);
      int y = (int) Math.floor(cy + size * ry * s + 0.5);
      if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
        sum += gx[y * w + x] * c + gy[y * w + x] * s;
        inside++;
      }
    }
    return new Ring(
        (cx + 0.5) * factor - 0.5,
        (cy + 0.5) * factor - 0.5,
        inside == 0 ? 0 : sum / inside,
        (double) inside / RAYS);
  }

  /** The score of a ring about a place of the picture, so many times as large as the usual. */
  double score(double x, double y, double size) {
    return at((x + 0.5) / factor - 0.5, (y + 0.5) / factor - 0.5, size).score();
  }

  /**
   * The ring that stands out most about a place.
   *
   * @param x expected centre, px
   * @param y expected centre, px
   * @param across how far off it may lie to either side, in half axes
   * @param down how far up or down
   * @param tone 1 where it must be brighter outside, -1 inside, 0 if either will do
   * @param leastVisible least share of it that must lie in the picture
   */
  Ring best(double x, double y, double across, double down, int tone, double leastVisible) {
    double cx = (x + 0.5) / factor - 0.5;
    double cy = (y + 0.5) / factor - 0.5;
    int reachX = (int) Math.ceil(across * rx);
    int reachY = (int) Math.ceil(down * ry);
    Ring best = new Ring(x, y, 0, at(cx, cy, 1).visible());
    for (int v = -reachY; v <= reachY; v++) {
      for (int u = -reachX; u <= reachX; u++) {
        for (int k = -1; k <= 1; k++) {
          Ring ring = at(cx + u, cy + v, 1 + 0.04 * k);
          boolean better =
              tone == 0
                  ? Math.abs(ring.score()) > Math.abs(best.score())
                  : tone * ring.score() > tone * best.score();
          if (better && ring.visible() >= leastVisible) {
            best = ring;
          }
        }
      }
    }
    return best;
  }
}
