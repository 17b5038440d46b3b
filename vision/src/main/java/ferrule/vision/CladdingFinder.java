package ferrule.vision;

import ferrule.core.face.Cladding;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds the edge of the cladding. Coarse: over a grid of centres and radii, the mean slope of
 * brightness along the rays, each slope capped so that a few strong features cannot outvote the
 * round. Fine: the steepest place on each of many rays to a part of a pixel, a Taubin fit, and a
 * fit of a circle or an upright ellipse with outliers weighed out by Tukey's function.
 */
final class CladdingFinder {
  private static final int RAYS = 64;

  /** What was found, or why not. */
  sealed interface Result permits Found, Missing {}

  /**
   * An edge.
   *
   * @param edge the fit
   * @param blurPx standard deviation of the edge's blur, pixels
   * @param step level outside less level inside
   */
  record Found(Cladding edge, double blurPx, double step) implements Result {}

  record Missing(String reason) implements Result {}

  private record Ring(double cx, double cy, double r, double score) {}

  private final Grey grey;

  CladdingFinder(Grey grey) {
    this.grey = grey;
  }

  Result find() {
    int factor = Math.max(1, Math.min(grey.width(), grey.height()) / 120);
    Grey small = grey.reduced(factor).blurred(1.0);
    List<Ring> rings = coarse(small);
    if (rings.isEmpty()) {
      return new Missing("no round edge stands out, so no cladding was found");
    }
    Ring best = rings.get(0);
    double scale = factor;
    double cx = (best.cx + 0.5) * scale - 0.5;
    double cy = (best.cy + 0.5) * scale - 0.5;
    return fine(cx, cy, best.r * scale, factor);
  }

  private static List<Ring> coarse(Grey small) {
    int w = small.width();
    int h = small.height();
    float[] gx = new float[w * h];
    float[] gy = new float[w * h];
    float[] size = new float[w * h];
    float[] p = small.pixels();
    for (int y = 1; y < h - 1; y++) {
      for (int x = 1; x < w - 1; x++) {
        int i = y * w + x;
        gx[i] = (p[i + 1] - p[i - 1]) / 2;
        gy[i] = (p[i + w] - p[i - w]) / 2;
        size[i] = (float) Math.hypot(gx[i], gy[i]);
      }
    }
    float[] sorted = size.clone();
    Arrays.sort(sorted);
    float cap = Math.max(1e-5f, 3 * sorted[sorted.length / 2]);
    cap = Math.max(cap, 0.15f * sorted[(int) (sorted.length * 0.99)]);
    for (int i = 0; i < size.length; i++) {
      float f = size[i] > cap ? 1 / size[i] : 1 / cap;
      gx[i] *= f;
      gy[i] *= f;
    }
    double[] cos = new double[RAYS];
    double[] sin = new double[RAYS];
    for (int k = 0; k < RAYS; k++) {
      cos[k] = Math.cos(2 * Math.PI * k / RAYS);
      sin[k] = Math.sin(2 * Math.PI * k / RAYS);
    }
    int side = Math.min(w, h);
    Ring best = new Ring(0, 0, 0, 0);
    for (int step = 0; step < 2; step++) {
      double x0 = step == 0 ? w * 0.15 : best.cx - 2;
      double x1 = step == 0 ? w * 0.85 : best.cx + 2;
      double y0 = step == 0 ? h * 0.15 : best.cy - 2;
      double y1 = step == 0 ? h * 0.85 : best.cy + 2;
      double stride = step == 0 ? 2 : 0.5;
      double r0 = step == 0 ? side * 0.08 : best.r - 3;
      double r1 = step == 0 ? side * 0.62 : best.r + 3;
      for (double cy = y0; cy <= y1; cy += stride) {
        for (double cx = x0; cx <= x1; cx += stride) {
          for (double r = r0; r <= r1; r += step == 0 ? 1 : 0.5) {
            double sum = 0;
            int inside = 0;
            for (int k = 0; k < RAYS; k++) {
              int x = (int) (cx + r * cos[k] + 0.5);
              int y = (int) (cy + r * sin[k] + 0.5);
              if (x > 0 && y > 0 && x < w - 1 && y < h - 1) {
                sum += gx[y * w + x] * cos[k] + gy[y * w + x] * sin[k];
                inside++;
              }
            }
            // Long rounds are less likely by chance; a core never outweighs its cladding.
            double score = inside < RAYS * 0.75 ? 0 : Math.abs(sum) / RAYS * Math.pow(r, 0.3);
            if (score > best.score) {
              best = new Ring(cx, cy, r, score);
            }
          }
        }
      }
    }
    double alike = best.r > 0 ? best.score / Math.pow(best.r, 0.3) : 0;
    return alike < 0.3 ? List.of() : List.of(best);
  }

  private Result fine(double cx, double cy, double r, int factor) {
    // All radii about this centre: mean slope by radius, to see core, cladding and ring apart.
    double[] mean = profile(cx, cy, r, 2.6);
    double reach = mean.length;
    List<double[]> edges = edges(mean, Math.max(1.2, 0.9 * factor));
    double outer = r;
    double main = 0;
    for (double[] e : edges) {
      if (Math.abs(e[0] - r) < 0.08 * r) {
        main = Math.max(main, Math.abs(e[1]));
      }
    }
    for (double[] e : edges) {
      double ratio = e[0] / r;
      if (ratio > 1.9 && ratio < 2.6 && e[0] < reach - 2 && Math.abs(e[1]) > 0.3 * main) {
        outer = e[0];
      }
    }
    Found fit = refine(cx, cy, outer);
    if (fit == null) {
      return new Missing("no round edge could be followed, so no cladding was found");
    }
    return checked(fit);
  }

  /** Medians over rays of brightness by whole pixels of radius. */
  private double[] profile(double cx, double cy, double r, double upTo) {
    int n = (int) Math.min(r * upTo, Math.hypot(grey.width(), grey.height()));
    List<Double> out = new ArrayList<>();
    int rays = 128;
    double[] v = new double[rays];
    for (int i = 0; i < n; i++) {
      int got = 0;
      for (int k = 0; k < rays; k++) {
        double x = cx + i * Math.cos(2 * Math.PI * k / rays);
        double y = cy + i * Math.sin(2 * Math.PI * k / rays);
        if (x >= 0 && y >= 0 && x <= grey.width() - 1 && y <= grey.height() - 1) {
          v[got++] = grey.at(x, y);
        }
      }
      if (got < rays * 0.7) {
        break;
      }
      Arrays.sort(v, 0, got);
      double sum = 0;
      for (int k = got / 4; k < got - got / 4; k++) {
        sum += v[k];
      }
      out.add(sum / (got - 2 * (got / 4)));
    }
    return out.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** Places of steepest change {radius, slope, noise of slopes}. */
  private static List<double[]> edges(double[] mean, double sigma) {
    int n = mean.length;
    double[] slope = new double[n];
    int reach = (int) Math.ceil(3 * sigma);
    for (int i = reach; i < n - reach; i++) {
      for (int k = -reach; k <= reach; k++) {
        slope[i] += mean[i + k] * k * Math.exp(-0.5 * k * k / (sigma * sigma));
      }
    }
    double[] size = Arrays.stream(slope).map(Math::abs).sorted().toArray();
    double noise = Math.max(1e-5, size[n / 2]);
    List<double[]> out = new ArrayList<>();
    for (int i = 1; i < n - 1; i++) {
      double a = Math.abs(slope[i]);
      if (a > 4 * noise && a >= Math.abs(slope[i - 1]) && a > Math.abs(slope[i + 1])) {
        out.add(new double[] {i, slope[i], noise});
      }
    }
    return out;
  }

  private @org.jspecify.annotations.Nullable Found refine(double cx, double cy, double r) {
    CircleFit fit = new CircleFit(cx, cy, r, r);
    double half = Math.max(5, 0.09 * r);
    double smooth = Math.max(4, 0.024 * r);
    for (int round = 0; round < 5; round++) {
      int rays = (int) Math.max(180, Math.min(720, 4 * r));
      int n = (int) (2 * half * 4) + 1;
      double[][] ray = new double[rays][n];
      double[] mean = new double[n];
      boolean[] in = new boolean[rays];
      for (int k = 0; k < rays; k++) {
        double c = Math.cos(2 * Math.PI * k / rays);
        double s = Math.sin(2 * Math.PI * k / rays);
        double base = fit.radiusAlong(c, s);
        double ex = fit.cx() + (base + half) * c;
        double ey = fit.cy() + (base + half) * s;
        in[k] = ex >= 0 && ey >= 0 && ex <= grey.width() - 1 && ey <= grey.height() - 1;
        for (int i = 0; i < n; i++) {
          double at = base - half + i * 0.25;
          // Neighbouring places along the edge share their noise.
          double v = 0;
          for (int t = -1; t <= 1; t++) {
            double tt = t * Math.min(1.5, 0.02 * r);
            v += grey.at(fit.cx() + at * c - tt * s, fit.cy() + at * s + tt * c);
          }
          ray[k][i] = v / 3;
        }
      }
      double[] column = new double[rays];
      for (int i = 0; i < n; i++) {
        for (int k = 0; k < rays; k++) {
          column[k] = ray[k][i];
        }
        Arrays.sort(column);
        for (int k = rays / 4; k < rays - rays / 4; k++) {
          mean[i] += column[k] / (rays - 2 * (rays / 4));
        }
      }
      int reach = (int) smooth;
      int room = (int) (4 * Math.max(1.5, 0.02 * r));
      int top = steepest(mean, reach, reach, n - reach, 0);
      int sign = slopeAt(mean, top, reach) > 0 ? 1 : -1;
      double[] px = new double[rays];
      double[] py = new double[rays];
      int got = 0;
      for (int k = 0; k < rays; k++) {
        if (!in[k]) {
          continue;
        }
        int span = round == 0 ? 3 * room : room;
        int at = steepest(ray[k], reach, top - span, top + span, sign);
        double l = sign * slopeAt(ray[k], at - 1, reach);
        double m = sign * slopeAt(ray[k], at, reach);
        double h = sign * slopeAt(ray[k], at + 1, reach);
        if (m <= 0 || at <= 3 || at >= n - 4) {
          continue;
        }
        double bend = l - 2 * m + h;
        double sub = bend < 0 ? 0.5 * (l - h) / bend : 0;
        double c = Math.cos(2 * Math.PI * k / rays);
        double s = Math.sin(2 * Math.PI * k / rays);
        double d = fit.radiusAlong(c, s) - half + (at + Math.max(-1, Math.min(1, sub))) * 0.25;
        px[got] = fit.cx() + d * c;
        py[got] = fit.cy() + d * s;
        got++;
      }
      if (got < rays / 2) {
        return null;
      }
      fit = robust(fit, Arrays.copyOf(px, got), Arrays.copyOf(py, got));
      if (!(fit.rx() > 4 && fit.rx() < 3 * r)) {
        return null;
      }
    }
    double from = -Math.min(Math.max(8, 0.1 * r), 6 + 0.075 * r);
    EdgeModel model = EdgeModel.fit(along(fit, from, -from), from, 0.25);
    double px = model.place();
    return new Found(
        new Cladding(fit.cx(), fit.cy(), fit.rx() + px, fit.ry() + px * fit.ry() / fit.rx()),
        model.sigma(),
        model.step());
  }

  /** Mean over the middle half of all rays, by distance from the edge, in quarters of a pixel. */
  private double[] along(CircleFit fit, double from, double to) {
    int n = (int) ((to - from) * 4) + 1;
    int rays = 360;
    double[] mean = new double[n];
    double[] column = new double[rays];
    for (int i = 0; i < n; i++) {
      int got = 0;
      for (int k = 0; k < rays; k++) {
        double c = Math.cos(2 * Math.PI * k / rays);
        double s = Math.sin(2 * Math.PI * k / rays);
        double d = fit.radiusAlong(c, s) + from + i * 0.25;
        double x = fit.cx() + d * c;
        double y = fit.cy() + d * s;
        if (x >= 0 && y >= 0 && x <= grey.width() - 1 && y <= grey.height() - 1) {
          column[got++] = grey.at(x, y);
        }
      }
      if (got < rays / 2) {
        return Arrays.copyOf(mean, i);
      }
      Arrays.sort(column, 0, got);
      for (int k = got / 4; k < got - got / 4; k++) {
        mean[i] += column[k] / (got - 2 * (got / 4));
      }
    }
    return mean;
  }

  private static double slopeAt(double[] v, int i, int reach) {
    double s = 0;
    for (int k = 1; k <= 2 * reach; k++) {
      double weight = k * Math.exp(-0.5 * k * k / (reach * reach));
      s += weight * (v[Math.min(v.length - 1, i + k)] - v[Math.max(0, i - k)]);
    }
    return s;
  }

  private static int steepest(double[] v, int reach, int from, int to, int sign) {
    int low = Math.max(2, from);
    int high = Math.min(v.length - 2, to);
    int best = Math.min(v.length - 2, Math.max(1, low));
    double most = -1;
    for (int i = low; i < high; i++) {
      double s = slopeAt(v, i, reach);
      double size = sign == 0 ? Math.abs(s) : sign * s;
      if (size > most) {
        most = size;
        best = i;
      }
    }
    return best;
  }

  private static CircleFit robust(CircleFit start, double[] x, double[] y) {
    CircleFit fit = start;
    double[] weight = new double[x.length];
    double[] rest = new double[x.length];
    Arrays.fill(weight, 1);
    CircleFit circle = fit;
    CircleFit ellipse = fit;
    double scatter = 0;
    for (int round = 0; round < 8; round++) {
      for (int i = 0; i < x.length; i++) {
        rest[i] = ellipse.rest(x[i], y[i]);
      }
      double[] sorted = Arrays.stream(rest).sorted().toArray();
      double middle = sorted[sorted.length / 2];
      double mad =
          1.4826
              * Arrays.stream(rest)
                  .map(v -> Math.abs(v - middle))
                  .sorted()
                  .toArray()[rest.length / 2];
      scatter = Math.max(0.02, mad);
      double from = round == 0 ? middle : 0;
      for (int i = 0; i < x.length; i++) {
        double u = (rest[i] - from) / ((round < 2 ? 6 : 4) * scatter);
        weight[i] = Math.abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0;
      }
      circle = circle.refined(x, y, weight, false);
      ellipse = ellipse.refined(x, y, weight, true);
    }
    double sd = scatter / Math.sqrt(x.length / 4.0);
    boolean round =
        Math.abs(ellipse.rx() - ellipse.ry()) < 5 * sd
            || Math.abs(ellipse.rx() / ellipse.ry() - 1) < 0.004;
    return round ? circle : ellipse;
  }

  private Result checked(Found found) {
    Cladding c = found.edge();
    double ratio = c.rxPx() / c.ryPx();
    if (ratio < 0.93 || ratio > 1.075) {
      return new Missing("the round edge is no circle, so it is not a fibre's cladding");
    }
    double r = c.rPx();
    double[] mean = profile(c.cx(), c.cy(), r, 1.0);
    // A fibre has a core of 8 to 10 or of 50 to 62.5 micrometres in 125.
    double inside = 0;
    int n = 0;
    int end = (int) (0.94 * r);
    double[] bodyValues = Arrays.copyOfRange(mean, (int) (0.12 * r), (int) (0.36 * r));
    double[] outerValues = Arrays.copyOfRange(mean, (int) (0.56 * r), end);
    double body = median(bodyValues);
    double outer = median(outerValues);
    for (int i = 0; i < Math.max(2, 0.045 * r); i++) {
      inside += mean[i];
      n++;
    }
    inside /= n;
    double noise = Math.max(0.0008, 1.5 * spread(bodyValues));
    double small = Math.abs(inside - body);
    double large = Math.abs(body - outer);
    if (small < 3 * noise && large < Math.max(0.01, 4 * noise)) {
      return new Missing("the disk shows no core, so it cannot be told to be a fibre");
    }
    return new Found(c, found.blurPx(), found.step());
  }

  private static double median(double[] v) {
    double[] s = v.clone();
    Arrays.sort(s);
    return s.length == 0 ? 0 : s[s.length / 2];
  }

  private static double spread(double[] v) {
    double[] d = new double[Math.max(1, v.length - 1)];
    for (int i = 0; i + 1 < v.length; i++) {
      d[i] = Math.abs(v[i + 1] - v[i]);
    }
    return 1.05 * median(d);
  }
}
