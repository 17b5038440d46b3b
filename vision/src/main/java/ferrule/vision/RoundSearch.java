package ferrule.vision;

import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * Where in a small picture something round stands out: over a grid of centres and radii, the mean
 * slope of brightness along the rays, each slope capped so that a few strong features cannot
 * outvote the round.
 */
final class RoundSearch {
  /** A round whose slopes agree by less than this is chance. */
  private static final double LEAST_ALIKE = 0.3;

  /** Long rounds are less likely by chance: a core does not outweigh its cladding. */
  private static final double FAVOUR = 0.3;

  /** No centre is sought so near to a border, as a share of the picture's side. */
  private static final double BORDER = 0.15;

  /** Less room about a centre, in radii, and more than a quarter of the round is outside. */
  private static final double LEAST_ROOM = 0.7;

  private static final int FEW_RAYS = 24;
  private static final int RAYS = 64;
  private static final double[] COS = unit(k -> Math.cos(2 * Math.PI * k / RAYS));
  private static final double[] SIN = unit(k -> Math.sin(2 * Math.PI * k / RAYS));

  /** From this radius on every second one is tried first, px. */
  private static final int SMALL = 20;

  /** Radii sought, as shares of the picture's shorter side. */
  private static final double LEAST_RADIUS = 0.08;

  private static final double MOST_RADIUS = 0.62;

  private final int w;
  private final int h;
  private final float[] gx;
  private final float[] gy;

  /** A round: centre and radius in pixels. */
  record Round(double cx, double cy, double r, double score) {}

  private RoundSearch(Grey small) {
    CappedSlopes slopes = new CappedSlopes(small);
    w = slopes.width;
    h = slopes.height;
    gx = slopes.across;
    gy = slopes.down;
  }

  /** The strongest round; empty if none stands out. */
  static Optional<Round> strongest(Grey small) {
    return new RoundSearch(small).strongest();
  }

  private Optional<Round> strongest() {
    Round coarse = coarse();
    if (coarse.score == 0) {
      return Optional.empty();
    }
    Round best = around(around(coarse, 2, 3, 1), 0.5, 0.5, 0.5);
    double alike = best.score / Math.pow(best.r, FAVOUR);
    return alike < LEAST_ALIKE ? Optional.empty() : Optional.of(best);
  }

  /** The strongest round about one, on a grid. */
  private Round around(Round start, double centre, double radius, double step) {
    Round best = new Round(start.cx, start.cy, start.r, 0);
    for (double cy = start.cy - centre; cy <= start.cy + centre; cy += step) {
      for (double cx = start.cx - centre; cx <= start.cx + centre; cx += step) {
        for (double r = start.r - radius; r <= start.r + radius; r += step) {
          double score = score(cx, cy, r);
          if (score > best.score) {
            best = new Round(cx, cy, r, score);
          }
        }
      }
    }
    return best;
  }

  private Round coarse() {
    int side = Math.min(w, h);
    Round best = new Round(0, 0, 0, 0);
    float[][] along = new float[FEW_RAYS / 2][];
    for (int k = 0; k < along.length; k++) {
      along[k] = along(k);
    }
    int[] dx = new int[FEW_RAYS];
    int[] dy = new int[FEW_RAYS];
    int[] shift = new int[FEW_RAYS];
    for (int r = (int) (side * LEAST_RADIUS); r <= side * MOST_RADIUS; r += r < SMALL ? 1 : 2) {
      for (int k = 0; k < FEW_RAYS; k++) {
        dx[k] = (int) Math.round(r * Math.cos(2 * Math.PI * k / FEW_RAYS));
        dy[k] = (int) Math.round(r * Math.sin(2 * Math.PI * k / FEW_RAYS));
        shift[k] = dy[k] * w + dx[k];
      }
      double favour = Math.pow(r, FAVOUR) / FEW_RAYS;
      // Nearer to a border than this and too many rays end outside.
      double room = LEAST_ROOM * r;
      int top = (int) Math.max(h * BORDER, room);
      int left = (int) Math.max(w * BORDER, room);
      for (int cy = top; cy <= h - top; cy += 2) {
        for (int cx = left; cx <= w - left; cx += 2) {
          boolean whole = cx > r && cy > r && cx + r < w - 1 && cy + r < h - 1;
          float sum = whole ? sum(along, shift, cy * w + cx) : sumInside(along, cx, cy, dx, dy);
          double score = Math.abs(sum) * favour;
          if (score > best.score) {
            best = new Round(cx, cy, r, score);
          }
        }
      }
    }
    return best;
  }

  /** Slopes along one of the few rays; along its opposite they have the other sign. */
  private float[] along(int ray) {
    float cos = (float) Math.cos(2 * Math.PI * ray / FEW_RAYS);
    float sin = (float) Math.sin(2 * Math.PI * ray / FEW_RAYS);
    float[] out = new float[gx.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = gx[i] * cos + gy[i] * sin;
    }
    return out;
  }

  private static float sum(float[][] along, int[] shift, int at) {
    float here = 0;
    float opposite = 0;
    for (int k = 0; k < FEW_RAYS / 2; k++) {
      here += along[k][at + shift[k]];
      opposite += along[k][at + shift[k + FEW_RAYS / 2]];
    }
    return here - opposite;
  }

  private float sumInside(float[][] along, int cx, int cy, int[] dx, int[] dy) {
    float here = 0;
    float opposite = 0;
    int inside = 0;
    for (int k = 0; k < FEW_RAYS / 2; k++) {
      int x = cx + dx[k];
      int y = cy + dy[k];
      if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
        here += along[k][y * w + x];
        inside++;
      }
      x = cx + dx[k + FEW_RAYS / 2];
      y = cy + dy[k + FEW_RAYS / 2];
      if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
        opposite += along[k][y * w + x];
        inside++;
      }
    }
    return inside < FEW_RAYS * 0.75 ? 0 : here - opposite;
  }

  private double score(double cx, double cy, double r) {
    double sum = 0;
    int inside = 0;
    for (int k = 0; k < RAYS; k++) {
      int x = (int) (cx + r * COS[k] + 0.5);
      int y = (int) (cy + r * SIN[k] + 0.5);
      if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
        sum += gx[y * w + x] * COS[k] + gy[y * w + x] * SIN[k];
        inside++;
      }
    }
    return inside < RAYS * 0.75 ? 0 : Math.abs(sum) / RAYS * Math.pow(r, FAVOUR);
  }

  private static double[] unit(IntToDoubleFunction coordinate) {
    return IntStream.range(0, RAYS).mapToDouble(coordinate).toArray();
  }
}
