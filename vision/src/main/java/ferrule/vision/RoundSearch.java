package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.Optional;

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

  private static final int FEW_RAYS = 24;
  private static final int RAYS = 64;

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
    w = small.width();
    h = small.height();
    gx = new float[w * h];
    gy = new float[w * h];
    slopes(small.pixels());
  }

  /** The strongest round; empty if none stands out. */
  static Optional<Round> strongest(Grey small) {
    return new RoundSearch(small).strongest();
  }

  private void slopes(float[] p) {
    double[] size = new double[w * h];
    for (int y = 1; y < h - 1; y++) {
      for (int x = 1; x < w - 1; x++) {
        int i = y * w + x;
        gx[i] = (p[i + 1] - p[i - 1]) / 2;
        gy[i] = (p[i + w] - p[i - w]) / 2;
        size[i] = Math.sqrt(gx[i] * gx[i] + gy[i] * gy[i]);
      }
    }
    double[] ranked = size.clone();
    double cap =
        Math.max(
            Math.max(1e-5, 3 * OrderStats.quantileInPlace(ranked, 0.5)),
            0.15 * OrderStats.quantileInPlace(ranked, 0.99));
    for (int i = 0; i < size.length; i++) {
      float f = (float) (1 / Math.max(cap, size[i]));
      gx[i] *= f;
      gy[i] *= f;
    }
  }

  private Optional<Round> strongest() {
    Round coarse = coarse();
    if (coarse.score == 0) {
      return Optional.empty();
    }
    Round best = coarse;
    double least = 0;
    for (double cy = coarse.cy - 2; cy <= coarse.cy + 2; cy += 0.5) {
      for (double cx = coarse.cx - 2; cx <= coarse.cx + 2; cx += 0.5) {
        for (double r = coarse.r - 3; r <= coarse.r + 3; r += 0.5) {
          double score = score(cx, cy, r);
          if (score > least) {
            least = score;
            best = new Round(cx, cy, r, score);
          }
        }
      }
    }
    double alike = best.score / Math.pow(best.r, FAVOUR);
    return alike < LEAST_ALIKE ? Optional.empty() : Optional.of(best);
  }

  private Round coarse() {
    int side = Math.min(w, h);
    Round best = new Round(0, 0, 0, 0);
    float[] cos = new float[FEW_RAYS];
    float[] sin = new float[FEW_RAYS];
    int[] dx = new int[FEW_RAYS];
    int[] dy = new int[FEW_RAYS];
    int[] shift = new int[FEW_RAYS];
    for (int k = 0; k < FEW_RAYS; k++) {
      cos[k] = (float) Math.cos(2 * Math.PI * k / FEW_RAYS);
      sin[k] = (float) Math.sin(2 * Math.PI * k / FEW_RAYS);
    }
    for (int r = (int) (side * LEAST_RADIUS); r <= side * MOST_RADIUS; r++) {
      for (int k = 0; k < FEW_RAYS; k++) {
        dx[k] = Math.round(r * cos[k]);
        dy[k] = Math.round(r * sin[k]);
        shift[k] = dy[k] * w + dx[k];
      }
      double favour = Math.pow(r, FAVOUR) / FEW_RAYS;
      for (int cy = (int) (h * 0.15); cy <= h * 0.85; cy += 2) {
        for (int cx = (int) (w * 0.15); cx <= w * 0.85; cx += 2) {
          float sum = 0;
          int at = cy * w + cx;
          if (cx > r && cy > r && cx + r < w - 1 && cy + r < h - 1) {
            for (int k = 0; k < FEW_RAYS; k++) {
              int i = at + shift[k];
              sum += gx[i] * cos[k] + gy[i] * sin[k];
            }
          } else {
            int inside = 0;
            for (int k = 0; k < FEW_RAYS; k++) {
              int x = cx + dx[k];
              int y = cy + dy[k];
              if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
                sum += gx[y * w + x] * cos[k] + gy[y * w + x] * sin[k];
                inside++;
              }
            }
            sum = inside < FEW_RAYS * 0.75 ? 0 : sum;
          }
          double score = Math.abs(sum) * favour;
          if (score > best.score) {
            best = new Round(cx, cy, r, score);
          }
        }
      }
    }
    return best;
  }

  private double score(double cx, double cy, double r) {
    double sum = 0;
    int inside = 0;
    for (int k = 0; k < RAYS; k++) {
      double c = Math.cos(2 * Math.PI * k / RAYS);
      double s = Math.sin(2 * Math.PI * k / RAYS);
      int x = (int) (cx + r * c + 0.5);
      int y = (int) (cy + r * s + 0.5);
      if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
        sum += gx[y * w + x] * c + gy[y * w + x] * s;
        inside++;
      }
    }
    return inside < RAYS * 0.75 ? 0 : Math.abs(sum) / RAYS * Math.pow(r, FAVOUR);
  }
}
