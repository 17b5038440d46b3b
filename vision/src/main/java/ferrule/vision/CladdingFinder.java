package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.Optional;

/**
 * Finds the edge of the cladding. Coarse: a search for something round. Finer: the steepest place
 * on each of many rays and a robust fit of a circle or an upright ellipse. Finest: a model of the
 * brightness across the edge, fitted to all of the round and then to each of its sectors.
 */
final class CladdingFinder {
  /** How often the model is fitted again about the edge it gave, as long as that moves, px. */
  private static final int ROUNDS = 2;

  private static final double SETTLED = 0.03;

  /** Rays along which the edge is followed. */
  private static final int RAYS = 128;

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

  /**
   * No edge that is surely a cladding's.
   *
   * @param reason why
   * @param disk a round disk in which no core is seen, if there is one: a fibre whose core cannot
   *     be told from its cladding, or an empty hole
   */
  record Missing(String reason, Optional<Found> disk) implements Result {
    Missing(String reason) {
      this(reason, Optional.empty());
    }
  }

  /** An edge whose step is a smaller share of the level within is chance. */
  private static final double LEAST_STEP = 0.015;

  private final Grey grey;

  CladdingFinder(Grey grey) {
    this.grey = grey;
  }

  Result find() {
    int factor = Math.max(1, Math.min(grey.width(), grey.height()) / 120);
    Optional<RoundSearch.Round> round = RoundSearch.strongest(grey.reduced(factor).blurred(1.0));
    if (round.isEmpty()) {
      return new Missing("no round edge stands out, so no cladding was found");
    }
    double cx = (round.get().cx() + 0.5) * factor - 0.5;
    double cy = (round.get().cy() + 0.5) * factor - 0.5;
    double r = round.get().r() * factor;
    // A multimode core may stand out more than the cladding about it.
    Optional<Found> found = followed(cx, cy, outer(cx, cy, r, factor)).flatMap(this::modelled);
    if (found.isEmpty()) {
      return new Missing("no round edge could be followed, so no cladding was found");
    }
    return checked(found.get());
  }

  /** The radius of the cladding, where what was found may be its core. */
  private double outer(double cx, double cy, double r, int factor) {
    if (showsSmallCore(new Cladding(cx, cy, r, r))) {
      return r;
    }
    double[] mean = profile(cx, cy, r, 2.6);
    if (showsWideCore(mean, r)) {
      return r;
    }
    double sigma = Math.max(1.2, 0.9 * factor);
    double[] slope = slopes(mean, sigma);
    double[] size = Arrays.stream(slope).map(Math::abs).toArray();
    double noise = Math.max(1e-5, OrderStats.median(size));
    double main = 0;
    double outer = r;
    for (int i = 1; i < size.length - 1; i++) {
      boolean edge = size[i] > 4 * noise && size[i] >= size[i - 1] && size[i] > size[i + 1];
      if (edge && Math.abs(i - r) < 0.08 * r) {
        main = Math.max(main, size[i]);
      } else if (edge && i > 1.9 * r && i < mean.length - 2 && size[i] > 0.3 * main) {
        outer = i;
      }
    }
    return outer;
  }

  /** Change of brightness by radius, smoothed. */
  private static double[] slopes(double[] mean, double sigma) {
    double[] slope = new double[mean.length];
    int reach = (int) Math.ceil(3 * sigma);
    for (int i = reach; i < mean.length - reach; i++) {
      for (int k = -reach; k <= reach; k++) {
        slope[i] += mean[i + k] * k * Math.exp(-0.5 * k * k / (sigma * sigma));
      }
    }
    return slope;
  }

  /** Means of the middle half over rays by whole pixels of radius, as far as most rays reach. */
  private double[] profile(double cx, double cy, double r, double upTo) {
    int n = (int) Math.min(r * upTo, Math.hypot(grey.width(), grey.height()));
    double[] out = new double[n];
    int rays = 128;
    double[] v = new double[rays];
    for (int i = 0; i < n; i++) {
      int got = 0;
      for (int k = 0; k < rays; k++) {
        double x = cx + i * Math.cos(2 * Math.PI * k / rays);
        double y = cy + i * Math.sin(2 * Math.PI * k / rays);
        if (isInside(x, y)) {
          v[got++] = grey.at(x, y);
        }
      }
      if (got < rays * 0.7) {
        return Arrays.copyOf(out, i);
      }
      out[i] = middleHalf(v, got);
    }
    return out;
  }

  private boolean isInside(double x, double y) {
    return x >= 0 && y >= 0 && x <= grey.width() - 1 && y <= grey.height() - 1;
  }

  /** Mean of the middle half of the first values, which are put in another order. */
  private static double middleHalf(double[] v, int n) {
    int from = n / 4;
    int to = n - n / 4;
    OrderStats.select(v, n, from);
    double[] upper = Arrays.copyOfRange(v, from, n);
    OrderStats.select(upper, n - from, to - from - 1);
    double sum = 0;
    for (int k = 0; k < to - from; k++) {
      sum += upper[k];
    }
    return sum / (to - from);
  }

  /** The steepest place on each ray, and a robust fit through them. */
  private Optional<CircleFit> followed(double cx, double cy, double r) {
    CircleFit fit = new CircleFit(cx, cy, r, r);
    double spacing = Math.max(0.25, r / 250);
    int rays = RAYS;
    int reach = (int) Math.max(2, Math.round(Math.max(1, 0.006 * r) / spacing));
    int room = (int) Math.round(Math.max(1.5, 0.02 * r) / spacing);
    double[] weight = slopeWeights(reach);
    for (int round = 0; round < 2; round++) {
      double half = Math.max(5, (round == 0 ? 0.14 : 0.07) * r);
      int n = (int) (2 * half / spacing) + 1;
      double[][] ray = new double[rays][];
      double[] c = new double[rays];
      double[] s = new double[rays];
      for (int k = 0; k < rays; k++) {
        c[k] = Math.cos(2 * Math.PI * k / rays);
        s[k] = Math.sin(2 * Math.PI * k / rays);
        ray[k] = ray(fit, c[k], s[k], half, spacing, n);
      }
      double[] mean = middleHalves(ray, n);
      int top = steepest(mean, weight, reach, n - reach, 0);
      int sign = slopeAt(mean, top, weight) > 0 ? 1 : -1;
      int span = round == 0 ? 3 * room : room;
      double[] px = new double[rays];
      double[] py = new double[rays];
      int got = 0;
      for (int k = 0; k < rays; k++) {
        double base = fit.radiusAlong(c[k], s[k]);
        double out = base + half;
        if (!isInside(fit.cx() + out * c[k], fit.cy() + out * s[k])) {
          continue;
        }
        int at = steepest(ray[k], weight, top - span, top + span, sign);
        double l = sign * slopeAt(ray[k], at - 1, weight);
        double m = sign * slopeAt(ray[k], at, weight);
        double h = sign * slopeAt(ray[k], at + 1, weight);
        if (m <= 0 || at <= 3 || at >= n - 4) {
          continue;
        }
        double bend = l - 2 * m + h;
        double sub = bend < 0 ? 0.5 * (l - h) / bend : 0;
        double d = base - half + (at + Math.max(-1, Math.min(1, sub))) * spacing;
        px[got] = fit.cx() + d * c[k];
        py[got] = fit.cy() + d * s[k];
        got++;
      }
      if (got < rays / 2) {
        return Optional.empty();
      }
      double[] alike = new double[got];
      Arrays.fill(alike, 1);
      fit = CircleFit.robust(fit, Arrays.copyOf(px, got), Arrays.copyOf(py, got), alike);
      if (!isSound(fit, r)) {
        return Optional.empty();
      }
    }
    return Optional.of(fit);
  }

  private static boolean isSound(CircleFit fit, double r) {
    return fit.rx() > 4 && fit.rx() < 3 * r && fit.ry() > 4 && fit.ry() < 3 * r;
  }

  /** Brightness along a ray about the fit; neighbouring places along the edge share their noise. */
  private double[] ray(CircleFit fit, double c, double s, double half, double spacing, int n) {
    double base = fit.radiusAlong(c, s);
    double aside = Math.min(1.5, 0.02 * base);
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      double at = base - half + i * spacing;
      double x = fit.cx() + at * c;
      double y = fit.cy() + at * s;
      v[i] =
          (grey.at(x, y)
                  + grey.at(x - aside * s, y + aside * c)
                  + grey.at(x + aside * s, y - aside * c))
              / 3;
    }
    return v;
  }

  private static double[] middleHalves(double[][] ray, int n) {
    double[] mean = new double[n];
    double[] column = new double[ray.length];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < ray.length; k++) {
        column[k] = ray[k][i];
      }
      mean[i] = middleHalf(column, ray.length);
    }
    return mean;
  }

  private static double[] slopeWeights(int reach) {
    double[] weight = new double[2 * reach];
    for (int k = 1; k <= weight.length; k++) {
      weight[k - 1] = k * Math.exp(-0.5 * k * k / (reach * reach));
    }
    return weight;
  }

  private static double slopeAt(double[] v, int i, double[] weight) {
    double s = 0;
    for (int k = 1; k <= weight.length; k++) {
      s += weight[k - 1] * (v[Math.min(v.length - 1, i + k)] - v[Math.max(0, i - k)]);
    }
    return s;
  }

  private static int steepest(double[] v, double[] weight, int from, int to, int sign) {
    int low = Math.max(2, from);
    int high = Math.min(v.length - 2, to);
    int best = Math.min(v.length - 2, Math.max(1, low));
    double most = -1;
    for (int i = low; i < high; i++) {
      double s = slopeAt(v, i, weight);
      double size = sign == 0 ? Math.abs(s) : sign * s;
      if (size > most) {
        most = size;
        best = i;
      }
    }
    return best;
  }

  private Optional<Found> modelled(CircleFit start) {
    double reach = Math.min(Math.max(8, 0.1 * start.rx()), 6 + 0.075 * start.rx());
    EdgeProfile profile = EdgeProfile.sparse(grey, start, reach);
    if (!profile.isEnough()) {
      return Optional.empty();
    }
    EdgeModel model = profile.model();
    CircleFit fit = profile.moved(model);
    for (int round = 0; round < ROUNDS && isSound(fit, start.rx()); round++) {
      profile =
          round == ROUNDS - 1
              ? EdgeProfile.about(grey, fit, reach)
              : EdgeProfile.sparse(grey, fit, reach);
      if (!profile.isEnough()) {
        return Optional.empty();
      }
      model = profile.model(model);
      fit = profile.moved(model);
    }
    return isSound(fit, start.rx())
        ? Optional.of(
            new Found(
                new Cladding(fit.cx(), fit.cy(), fit.rx(), fit.ry()), model.sigma(), model.step()))
        : Optional.empty();
  }

  private Result checked(Found found) {
    Cladding c = found.edge();
    double ratio = c.rxPx() / c.ryPx();
    if (ratio < 0.93 || ratio > 1.075) {
      return new Missing("the round edge is no circle, so it is not a fibre's cladding");
    }
    if (Math.abs(found.step()) < LEAST_STEP * OrderStats.median(values(c, 0.4, 0.8))) {
      return new Missing("no round edge stands out, so no cladding was found");
    }
    if (!showsSmallCore(c) && !showsWideCore(profile(c.cx(), c.cy(), c.rPx(), 1.0), c.rPx())) {
      return new Missing(
          "the disk shows no core, so it cannot be told to be a fibre", Optional.of(found));
    }
    return found;
  }

  /** Whether a core of 8 to 10 micrometres in 125 stands out from the noise of the pixels. */
  private boolean showsSmallCore(Cladding c) {
    double[] in = values(c, 0, 0.05);
    double[] about = values(c, 0.12, 0.3);
    double[] steps = new double[Math.max(1, about.length - 1)];
    for (int i = 0; i < about.length - 1; i++) {
      steps[i] = Math.abs(about[i + 1] - about[i]);
    }
    double body = OrderStats.median(about);
    double noise = OrderStats.SD_OVER_MAD * OrderStats.median(steps) / Math.sqrt(2);
    double sd = 1.25 * noise * Math.sqrt(1.0 / Math.max(1, in.length) + 1.0 / about.length);
    return Math.abs(OrderStats.median(in) - body) > Math.max(0.012 * body, 4 * sd);
  }

  /** Pixels between two distances from the centre, in shares of the cladding's radius. */
  private double[] values(Cladding c, double from, double to) {
    double reach = to * c.rPx();
    int left = (int) Math.max(0, Math.ceil(c.cx() - reach));
    int right = (int) Math.min(grey.width() - 1, c.cx() + reach);
    int top = (int) Math.max(0, Math.ceil(c.cy() - reach));
    int bottom = (int) Math.min(grey.height() - 1, c.cy() + reach);
    double[] out = new double[Math.max(0, right - left + 1) * Math.max(0, bottom - top + 1)];
    int n = 0;
    for (int y = top; y <= bottom; y++) {
      for (int x = left; x <= right; x++) {
        double dx = x - c.cx();
        double dy = y - c.cy();
        double r = Math.sqrt(dx * dx + dy * dy);
        if (r <= reach && r >= from * c.rPx()) {
          out[n++] = grey.at(x, y);
        }
      }
    }
    return Arrays.copyOf(out, n);
  }

  /** Whether the level changes between a core of 50 or 62.5 micrometres in 125 and its cladding. */
  private static boolean showsWideCore(double[] mean, double r) {
    if (mean.length < 0.95 * r) {
      return false;
    }
    double[] between = Arrays.copyOfRange(mean, (int) (0.12 * r), (int) (0.36 * r));
    double outer = OrderStats.median(Arrays.copyOfRange(mean, (int) (0.56 * r), (int) (0.94 * r)));
    double noise = Math.max(0.0008, 1.5 * spread(between));
    return Math.abs(OrderStats.median(between) - outer) >= Math.max(0.01, 4 * noise);
  }

  /** Robust spread of the steps from one value to the next. */
  private static double spread(double[] v) {
    double[] d = new double[Math.max(1, v.length - 1)];
    for (int i = 0; i + 1 < v.length; i++) {
      d[i] = Math.abs(v[i + 1] - v[i]);
    }
    return 1.05 * OrderStats.median(d);
  }
}
