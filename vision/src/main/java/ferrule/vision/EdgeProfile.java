package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * Brightness about a first guess of the cladding's edge, by distance from it and by sector of the
 * round. Each sector is brought to one light; sectors unlike the others, under dirt or out of the
 * picture, are weighed out.
 */
final class EdgeProfile {
  private static final int SECTORS = 48;

  /** Angles in sectors by tangent, up to an eighth of the round. */
  private static final int TANGENTS = 2048;

  private static final double[] EIGHTH = eighth();

  /** A round of a larger radius than this holds more pixels than are needed, px. */
  private static final double ENOUGH = 250;

  private static final double ENOUGH_AT_FIRST = 80;

  /** A model is read at so many places a bin. */
  private static final int FINER = 8;

  private final CircleFit guess;
  private final int bins;
  private final double spacing;
  private final double from;

  /** Mean level by sector and bin, NaN where no pixel is, and at which distance. */
  private final double[][] mean = new double[SECTORS][];

  private final double[][] place = new double[SECTORS][];
  private final double[] trust = new double[SECTORS];
  private final double[] light = new double[SECTORS];

  private double[] at = new double[0];
  private double[] level = new double[0];
  private double[] weight = new double[0];

  private EdgeProfile(CircleFit guess, double reach) {
    this.guess = guess;
    spacing = Math.max(0.25, reach / 60);
    bins = (int) (2 * reach / spacing) + 1;
    from = -reach;
  }

  /** Gathers pixels this near to the guess, px. */
  static EdgeProfile about(Grey grey, CircleFit guess, double reach) {
    return about(grey, guess, reach, ENOUGH);
  }

  /** Gathers some of the pixels this near to the guess, px: enough to better the guess. */
  static EdgeProfile sparse(Grey grey, CircleFit guess, double reach) {
    return about(grey, guess, reach, ENOUGH_AT_FIRST);
  }

  private static EdgeProfile about(Grey grey, CircleFit guess, double reach, double enough) {
    EdgeProfile profile = new EdgeProfile(guess, reach);
    profile.gather(grey, (int) Math.max(1, guess.rx() / enough));
    profile.combine();
    return profile;
  }

  private void gather(Grey grey, int step) {
    double[] sum = new double[SECTORS * bins];
    double[] far = new double[SECTORS * bins];
    int[] count = new int[SECTORS * bins];
    double reach = -from;
    double a = guess.rx();
    double b = guess.ry();
    double perSpacing = 1 / spacing;
    double perA = 1 / (a * a);
    double perB = 1 / (b * b);
    int top = (int) Math.max(0, guess.cy() - b - reach);
    int bottom = (int) Math.min(grey.height() - 1, guess.cy() + b + reach + 1);
    for (int y = top; y <= bottom; y++) {
      double dy = y - guess.cy();
      double outer = 1 - dy * dy / ((b + reach) * (b + reach));
      if (outer <= 0) {
        continue;
      }
      double wide = (a + reach) * Math.sqrt(outer);
      double inner = 1 - dy * dy / ((b - reach) * (b - reach));
      double hole = inner <= 0 ? -1 : (a - reach) * Math.sqrt(inner);
      int left = (int) Math.max(0, guess.cx() - wide);
      int right = (int) Math.min(grey.width() - 1, guess.cx() + wide + 1);
      int skipFrom = (int) Math.ceil(guess.cx() - hole);
      int skipTo = (int) (guess.cx() + hole);
      // Every so many pixels, aside by one from row to row: no place on an edge is left out.
      for (int x = left + y % step; x <= right; x += step) {
        if (hole > 0 && x >= skipFrom && x <= skipTo) {
          x += (skipTo - x) / step * step;
          continue;
        }
        double dx = x - guess.cx();
        double dist = Math.sqrt(dx * dx + dy * dy);
        double d = a == b ? dist - a : dist - dist / Math.sqrt(dx * dx * perA + dy * dy * perB);
        double bin = (d - from) * perSpacing;
        if (bin < 0 || bin >= bins) {
          continue;
        }
        int cell = sector(dx, dy) * bins + (int) bin;
        sum[cell] += grey.at(x, y);
        far[cell] += d;
        count[cell]++;
      }
    }
    for (int s = 0; s < SECTORS; s++) {
      mean[s] = new double[bins];
      place[s] = new double[bins];
      for (int k = 0; k < bins; k++) {
        int cell = s * bins + k;
        mean[s][k] = count[cell] == 0 ? Double.NaN : sum[cell] / count[cell];
        place[s][k] = count[cell] == 0 ? Double.NaN : far[cell] / count[cell];
      }
    }
  }

  /** Sectors are counted from the left, the way a picture's angles run. */
  private static int sector(double dx, double dy) {
    double x = Math.abs(dx);
    double y = Math.abs(dy);
    double eighth = EIGHTH[(int) (Math.min(x, y) / Math.max(Math.max(x, y), 1e-9) * TANGENTS)];
    double quarter = y > x ? SECTORS / 4.0 - eighth : eighth;
    double half = dx < 0 ? SECTORS / 2.0 - quarter : quarter;
    return (int) (SECTORS / 2.0 + (dy < 0 ? -half : half)) % SECTORS;
  }

  private static double[] eighth() {
    double[] out = new double[TANGENTS + 1];
    for (int k = 0; k < out.length; k++) {
      out[k] = SECTORS * Math.atan((k + 0.5) / TANGENTS) / (2 * Math.PI);
    }
    return out;
  }

  private void combine() {
    Arrays.fill(trust, 1);
    Arrays.fill(light, 1);
    double[] middle = new double[bins];
    double[] spread = new double[bins];
    for (int round = 0; round < 2; round++) {
      for (int k = 0; k < bins; k++) {
        double[] v = new double[SECTORS];
        int n = 0;
        for (int s = 0; s < SECTORS; s++) {
          if (!Double.isNaN(mean[s][k])) {
            v[n++] = mean[s][k] / light[s];
          }
        }
        // Fewer than half of the sectors do not speak for the round.
        middle[k] = n < SECTORS / 2 ? Double.NaN : OrderStats.quantileInPlace(v, n, 0.5);
        for (int i = 0; i < n; i++) {
          v[i] = Math.abs(v[i] - middle[k]);
        }
        spread[k] = Math.max(3e-4, OrderStats.SD_OVER_MAD * OrderStats.quantileInPlace(v, n, 0.5));
      }
      for (int s = 0; s < SECTORS; s++) {
        double[] v = new double[bins];
        int n = 0;
        for (int k = 0; k < bins; k++) {
          double r = mean[s][k] / middle[k];
          if (r > 0 && Double.isFinite(r)) {
            v[n++] = r;
          }
        }
        light[s] = n < bins / 3 ? 1 : OrderStats.quantileInPlace(v, n, 0.5);
      }
    }
    weigh(middle, spread);
    average(spread);
  }

  private void weigh(double[] middle, double[] spread) {
    double[] unlike = new double[SECTORS];
    for (int s = 0; s < SECTORS; s++) {
      double sum = 0;
      int n = 0;
      for (int k = 0; k < bins; k++) {
        double off = (mean[s][k] / light[s] - middle[k]) / spread[k];
        if (Double.isFinite(off)) {
          sum += Math.min(100, off * off);
          n++;
        }
      }
      unlike[s] = n < bins / 3 ? Double.NaN : Math.sqrt(sum / n);
    }
    double usual = OrderStats.median(Arrays.stream(unlike).filter(v -> v >= 0).toArray());
    for (int s = 0; s < SECTORS; s++) {
      double u = (unlike[s] - usual) / (2.5 * usual);
      trust[s] = Double.isNaN(u) ? 0 : u <= 0 ? 1 : u < 1 ? (1 - u * u) * (1 - u * u) : 0;
    }
  }

  private void average(double[] spread) {
    at = new double[bins];
    level = new double[bins];
    weight = new double[bins];
    int got = 0;
    for (int k = 0; k < bins; k++) {
      double sum = 0;
      double far = 0;
      double by = 0;
      double square = 0;
      for (int s = 0; s < SECTORS; s++) {
        if (trust[s] > 0 && !Double.isNaN(mean[s][k])) {
          sum += trust[s] * mean[s][k] / light[s];
          far += trust[s] * place[s][k];
          by += trust[s];
          square += trust[s] * trust[s];
        }
      }
      if (by > SECTORS / 4.0) {
        at[got] = far / by;
        level[got] = sum / by;
        weight[got] = by * by / (square * spread[k] * spread[k]);
        got++;
      }
    }
    at = Arrays.copyOf(at, got);
    level = Arrays.copyOf(level, got);
    weight = Arrays.copyOf(weight, got);
  }

  /** Whether enough of the round is in the picture for a model. */
  boolean isEnough() {
    return at.length > bins / 2;
  }

  EdgeModel model() {
    return EdgeModel.fit(at, level, weight);
  }

  /** The model of the same round about a better guess. */
  EdgeModel model(EdgeModel before) {
    return before.again(at, level, weight);
  }

  /**
   * The guess moved to where each sector has the model's edge: a circle, or an upright ellipse
   * where the two axes differ by more than their doubt.
   */
  CircleFit moved(EdgeModel model) {
    double[] x = new double[SECTORS];
    double[] y = new double[SECTORS];
    double[] w = new double[SECTORS];
    double[] level = new double[FINER * bins + 1];
    for (int k = 0; k < level.length; k++) {
      level[k] = model.level(from + k * spacing / FINER);
    }
    for (int s = 0; s < SECTORS; s++) {
      double up = 0;
      double down = 0;
      for (int k = 0; k < bins; k++) {
        if (!Double.isNaN(mean[s][k])) {
          double d = (place[s][k] - from) * FINER / spacing;
          int i = Math.min((int) d, level.length - 2);
          double slope = (level[i + 1] - level[i]) * FINER / spacing;
          up += slope * (mean[s][k] / light[s] - level[i] - (d - i) * (level[i + 1] - level[i]));
          down += slope * slope;
        }
      }
      double angle = ((s + 0.5) / SECTORS - 0.5) * 2 * Math.PI;
      double c = Math.cos(angle);
      double n = Math.sin(angle);
      double off = down > 0 ? Math.max(-spacing * 8, Math.min(spacing * 8, -up / down)) : 0;
      double r = guess.radiusAlong(c, n) + model.place() + off;
      x[s] = guess.cx() + r * c;
      y[s] = guess.cy() + r * n;
      w[s] = down > 0 ? trust[s] : 0;
    }
    CircleFit grown =
        new CircleFit(
            guess.cx(),
            guess.cy(),
            guess.rx() + model.place(),
            guess.ry() + model.place() * guess.ry() / guess.rx());
    return CircleFit.robust(grown, x, y, w);
  }
}
