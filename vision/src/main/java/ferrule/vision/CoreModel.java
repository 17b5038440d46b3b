package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.Optional;

/**
 * The core as a disk of one level in the cladding's, blurred at its edge. A median by distance from
 * the centre follows a flaw that lies on the core's middle; a disk does not.
 *
 * <p>Single-mode cores measure 8 to 10 µm (common practice, no source) and lie within a micrometre
 * of the cladding's centre; of a multimode core only its level is seen here.
 */
final class CoreModel {
  /** As far as the model speaks, µm. */
  private static final double REACH_UM = 8;

  /** Pixels up to here are fitted, µm. */
  private static final double FITTED_UM = 10;

  private static final double LEAST_UM = 3.6;
  private static final double MOST_UM = 5.6;
  private static final double ASIDE_UM = 0.8;

  /** Smaller steps of the radius change no flaw. */
  private static final double FINE_ENOUGH_UM = 0.02;

  private final FaceFrame frame;
  private final int[] pixels;
  private final double[] level;

  /** Places of the pixels from the cladding's centre, µm. */
  private final double[] x;

  private final double[] y;
  private final double noise;

  /** {radius, aside along x, along y, blur}, all µm. */
  private double[] shape;

  private double inside;
  private double outside;

  private CoreModel(FaceFrame frame, float[] lit) {
    this.frame = frame;
    pixels = frame.within(FITTED_UM);
    level = Arrays.stream(pixels).mapToDouble(i -> lit[i]).toArray();
    x = Arrays.stream(pixels).mapToDouble(frame::xOf).toArray();
    y = Arrays.stream(pixels).mapToDouble(frame::yOf).toArray();
    shape = new double[] {0.5 * (LEAST_UM + MOST_UM), 0, 0, 1};
    double[] far = new double[pixels.length];
    int n = 0;
    for (int k = 0; k < pixels.length; k++) {
      if (frame.radius(pixels[k]) > REACH_UM - 1) {
        far[n++] = level[k];
      }
    }
    outside = OrderStats.quantileInPlace(far, n, 0.5);
    for (int k = 0; k < n; k++) {
      far[k] = Math.abs(far[k] - outside);
    }
    noise =
        Math.max(
            0.002 * Math.abs(outside),
            OrderStats.SD_OVER_MAD * OrderStats.quantileInPlace(far, n, 0.5));
  }

  /**
   * Fits a core.
   *
   * @param lit levels with uneven light taken out
   * @return empty if the middle of the face is not in the picture
   */
  static Optional<CoreModel> fit(FaceFrame frame, float[] lit) {
    CoreModel model = new CoreModel(frame, lit);
    if (model.pixels.length < 40 || !(model.outside > 0)) {
      return Optional.empty();
    }
    if (hasWideCore(frame, lit)) {
      model.inside = model.outside;
    } else {
      model.fit();
    }
    return Optional.of(model);
  }

  /** Whether the level changes between what lies in a multimode core and what lies about it. */
  private static boolean hasWideCore(FaceFrame frame, float[] lit) {
    int rings = frame.rings(1);
    double[] by = frame.medians(lit, rings, 1, false);
    double in = mean(by, 12, 22, frame.ringUm(rings));
    double out = mean(by, 36, 54, frame.ringUm(rings));
    return Math.abs(in / out - 1) > 0.03;
  }

  private static double mean(double[] by, double from, double to, double ringUm) {
    return Arrays.stream(by, (int) (from / ringUm), Math.min(by.length, (int) (to / ringUm)))
        .average()
        .orElse(Double.NaN);
  }

  private void fit() {
    double blur = Math.max(0.4, frame.blurPx() * frame.um());
    double[] best = {0.5 * (LEAST_UM + MOST_UM), 0, 0, blur};
    double least = Double.MAX_VALUE;
    double[] levels = {outside, outside};
    double usual = outside;
    double[] begin = {quantileInside(0.2), quantileInside(0.5), quantileInside(0.8)};
    for (double r = LEAST_UM + 0.2; r <= MOST_UM; r += 0.4) {
      double[] t = {r, 0, 0, blur};
      double[] share = shares(t);
      for (double from : begin) {
        double c = cost(share, from, usual, 5);
        if (c < least) {
          least = c;
          best = t;
          levels = new double[] {inside, outside};
        }
      }
    }
    double[] step = {0.2, 0.3, 0.3, 0.3 * blur};
    for (int round = 0; round < 12 && step[0] > FINE_ENOUGH_UM; round++) {
      boolean better = false;
      for (int k = 0; k < 4; k++) {
        for (int sign = -1; sign <= 1; sign += 2) {
          double[] t = best.clone();
          t[k] += sign * step[k];
          if (t[0] < LEAST_UM
              || t[0] > MOST_UM
              || Math.hypot(t[1], t[2]) > ASIDE_UM
              || t[3] < 0.7 * blur
              || t[3] > 1.6 * blur) {
            continue;
          }
          double c = cost(shares(t), levels[0], levels[1], 2);
          if (c < least) {
            least = c;
            best = t;
            levels = new double[] {inside, outside};
            better = true;
          }
        }
      }
      if (!better) {
        for (int k = 0; k < 4; k++) {
          step[k] /= 2;
        }
      }
    }
    shape = best;
    inside = levels[0];
    outside = levels[1];
  }

  private double quantileInside(double share) {
    double[] v = new double[pixels.length];
    int n = 0;
    for (int k = 0; k < v.length; k++) {
      if (frame.radius(pixels[k]) < LEAST_UM) {
        v[n++] = level[k];
      }
    }
    return OrderStats.quantileInPlace(v, n, share);
  }

  private double[] shares(double[] t) {
    double[] share = new double[pixels.length];
    for (int k = 0; k < share.length; k++) {
      share[k] = share(t, k);
    }
    return share;
  }

  /** Tukey's function of what is left, after both levels settled; leaves the levels in place. */
  private double cost(double[] share, double fromInside, double fromOutside, int rounds) {
    double in = fromInside;
    double out = fromOutside;
    double perWidth = 1 / (4.685 * noise);
    double sum = 0;
    for (int round = 0; round < rounds; round++) {
      double aa = 0;
      double ab = 0;
      double bb = 0;
      double av = 0;
      double bv = 0;
      sum = 0;
      for (int k = 0; k < share.length; k++) {
        double s = share[k];
        double u = (level[k] - out - s * (in - out)) * perWidth;
        double f = 1 - u * u;
        sum += f > 0 ? 1 - f * f * f : 1;
        double w = f > 0 ? f * f : 0;
        aa += w * s * s;
        ab += w * s * (1 - s);
        bb += w * (1 - s) * (1 - s);
        av += w * s * level[k];
        bv += w * (1 - s) * level[k];
      }
      double det = aa * bb - ab * ab;
      if (det <= 1e-9 * aa * bb) {
        break;
      }
      in = (av * bb - bv * ab) / det;
      out = (bv * aa - av * ab) / det;
    }
    inside = in;
    outside = out;
    return sum;
  }

  private double share(double[] t, int k) {
    double dx = x[k] - t[1];
    double dy = y[k] - t[2];
    // A disk under a Gaussian blur: Rice's law with its mean, sqrt(r^2 + s^2), and the blur's
    // spread.
    return EdgeModel.normal((t[0] - Math.sqrt(dx * dx + dy * dy + t[3] * t[3])) / t[3]);
  }

  /** Puts what is left over this core in the place of what a median by ring left. */
  void replace(float[] lit, float[] rest) {
    if (isLit(lit, rest)) {
      return;
    }
    for (int k = 0; k < pixels.length; k++) {
      int i = pixels[k];
      double r = frame.radius(i);
      if (r < REACH_UM) {
        double s = share(shape, k);
        double own = lit[i] / Math.max(0.01, outside + s * (inside - outside)) - 1;
        double keep = Math.max(0, r - (REACH_UM - 2)) / 2;
        rest[i] = (float) (own + keep * (rest[i] - own));
      }
    }
  }

  /**
   * Whether the core shines from within, as a bright round hill that a median by ring explains:
   * light in the fibre, no flaw.
   */
  private boolean isLit(float[] lit, float[] rest) {
    double ring = 0;
    double disk = 0;
    double above = 0;
    int n = 0;
    for (int k = 0; k < pixels.length; k++) {
      int i = pixels[k];
      if (frame.radius(i) < LEAST_UM) {
        double own = lit[i] - outside - share(shape, k) * (inside - outside);
        double by = rest[i] * lit[i] / (1 + rest[i]);
        ring += by * by;
        disk += own * own;
        above += own;
        n++;
      }
    }
    return n > 0 && above > 0 && disk > 6 * ring && ring / n < 4 * noise * noise;
  }
}
