package ferrule.vision;

/**
 * Brightness along a ray across the edge of the cladding: cladding, perhaps a ring of glue of
 * another level, ferrule, on a slope of light, all under one Gaussian blur. Places and blur by a
 * search, levels by least squares. The steepest place of such a profile lies aside of the true edge
 * where the ring is thin; the model does not.
 *
 * @param place of the cladding's edge
 * @param ring width of the ring, 0 for none
 * @param sigma standard deviation of the blur
 * @param step level just outside the edge less level inside
 */
record EdgeModel(double place, double ring, double sigma, double step) {

  /** A ring must explain so much of what a plain step leaves, or it is not believed. */
  private static final double GAIN = 0.3;

  /** The weaker of a ring's two steps is at least this share of the stronger. */
  private static final double LEAST = 0.045;

  /** Values from {@code from} on at this spacing, all in pixels. */
  static EdgeModel fit(double[] v, double from, double spacing) {
    double[] plain = best(v, from, spacing, false);
    double[] ring = best(v, from, spacing, true);
    double[] both = levels(v, from, spacing, ring[0], ring[1], ring[2]);
    double weak = Math.min(Math.abs(both[1]), Math.abs(both[2]));
    double strong = Math.max(Math.abs(both[1]), Math.abs(both[2]));
    double[] chosen = ring[3] < GAIN * plain[3] && weak > LEAST * strong ? ring : plain;
    double[] levels = levels(v, from, spacing, chosen[0], chosen[1], chosen[2]);
    return new EdgeModel(chosen[0], chosen[1], chosen[2], levels[1]);
  }

  private static double[] best(double[] v, double from, double spacing, boolean ring) {
    double reach = v.length * spacing;
    double grid = Math.max(0.5, reach / 60);
    // Thin, middling and wide rings are sought apart: the search must not stay in a false hollow.
    double[][] starts = new double[ring ? 3 : 1][];
    for (double sigma : new double[] {0.5, 0.7, 1, 1.4, 2, 2.8}) {
      for (double p = from + 0.2 * reach; p < from + 0.8 * reach; p += grid) {
        double most = ring ? 0.35 * reach : 0;
        for (double w = ring ? grid : 0; w <= most; w += grid) {
          double e = levels(v, from, spacing, p, w, sigma)[0];
          int sort = !ring ? 0 : w < 0.07 * reach ? 0 : w < 0.15 * reach ? 1 : 2;
          if (starts[sort] == null || e < starts[sort][3]) {
            starts[sort] = new double[] {p, w, sigma, e};
          }
        }
      }
    }
    double[] best = {0, 0, 1, Double.MAX_VALUE};
    for (double[] start : starts) {
      double[] end = descended(start, v, from, spacing, ring, grid);
      best = end[3] < best[3] ? end : best;
    }
    return best;
  }

  private static double[] descended(
      double[] start, double[] v, double from, double spacing, boolean ring, double grid) {
    double[] best = start;
    double[] step = {grid / 2, grid / 2, 0.3};
    for (int round = 0; round < 60 && step[0] > 0.002; round++) {
      boolean better = false;
      for (int k = 0; k < 3; k++) {
        for (int sign = -1; sign <= 1; sign += 2) {
          for (int join = 0; join < (k == 0 && ring ? 2 : 1); join++) {
            double[] t = best.clone();
            t[k] += sign * step[k];
            if (join == 1) {
              t[1] -= sign * step[0];
            }
            if (t[2] < 0.25 || t[1] < (ring ? 0.2 : 0) || (!ring && t[1] != 0)) {
              continue;
            }
            t[3] = levels(v, from, spacing, t[0], t[1], t[2])[0];
            if (t[3] < best[3]) {
              best = t;
              better = true;
            }
          }
        }
      }
      if (!better) {
        step[0] /= 2;
        step[1] /= 2;
        step[2] /= 2;
      }
    }
    return best;
  }

  /** Squares left, and the step at the edge. */
  private static double[] levels(
      double[] v, double from, double spacing, double place, double ring, double sigma) {
    int m = ring > 0 ? 4 : 3;
    double[][] a = new double[m][m + 1];
    double vv = 0;
    double[] row = new double[m];
    double middle = from + v.length * spacing / 2;
    for (int i = 0; i < v.length; i++) {
      double d = from + i * spacing;
      row[0] = 1;
      row[1] = normal((d - place) / sigma);
      row[2] = (d - middle) / (v.length * spacing);
      if (m == 4) {
        row[3] = normal((d - place - ring) / sigma);
      }
      for (int j = 0; j < m; j++) {
        for (int k = 0; k < m; k++) {
          a[j][k] += row[j] * row[k];
        }
        a[j][m] += row[j] * v[i];
      }
      vv += v[i] * v[i];
    }
    double[] right = new double[m];
    for (int j = 0; j < m; j++) {
      right[j] = a[j][m];
      a[j][j] *= 1 + 1e-9;
    }
    double[] x = CircleFit.solved(a);
    double left = vv;
    for (int j = 0; j < m; j++) {
      left -= x[j] * right[j];
    }
    return new double[] {Math.max(left, 0) + 1e-9, x[1], m == 4 ? x[3] : 0};
  }

  /** Normal distribution function by a logistic of a cubic, to 2e-4: enough for a shape. */
  static double normal(double z) {
    if (z > 5) {
      return 1;
    }
    if (z < -5) {
      return 0;
    }
    return 1 / (1 + Math.exp(-z * (1.5976 + 0.07056 * z * z)));
  }
}
