package ferrule.vision;

import java.util.Arrays;

/**
 * Brightness along a ray across the edge of the cladding: cladding, perhaps a ring of glue of
 * another level, ferrule, each on a slope of light, all under one Gaussian blur. Places and blur by
 * Levenberg and Marquardt's method, levels by weighted least squares (variable projection, Golub
 * and Pereyra 1973). The steepest place of such a profile lies aside of the true edge where the
 * ring is thin; the model does not.
 */
final class EdgeModel {

  /** A ring lowers the weighted squares by so much, and by this share of them, or is not there. */
  private static final double GAIN = 30;

  private static final double SHARE = 0.45;

  /** The weaker of a ring's two steps is at least this share of the stronger. */
  private static final double LEAST = 0.05;

  /** A ring between its neighbours in level is one only if so much wider than the blur. */
  private static final double STAIR = 2.5;

  /** Widths of a ring to begin with, as shares of the profile. */
  private static final double[] WIDTHS = {0.015, 0.03, 0.06, 0.09, 0.13, 0.18, 0.25, 0.34};

  /**
   * A ring's level over the cladding's, and its standard deviation: where blur hides the ring, its
   * level and width go together, and this decides (judgement; glue is darker than glass, not
   * black).
   */
  private static final double USUAL = 0.5;

  private static final double USUAL_SD = 0.3;

  /** The finest blur to begin with, px, and the next over it. */
  private static final double FINEST = 0.5;

  private static final double NEXT = 1.5;

  /** Levels and slopes: cladding, ring, ferrule; cladding's slope, ferrule's slope. */
  private static final int TERMS = 5;

  private final Points points;
  private final double[] at;
  private final double[] level;
  private final double[] weight;
  private final double reach;

  /** Weight of what is usual of a ring. */
  private double usual;

  /** {place, width of the ring or 0, blur}. */
  private double[] shape;

  private double[] levels;
  private double squares;

  private EdgeModel(Points points) {
    this.points = points;
    at = points.at;
    level = points.level;
    weight = points.weight;
    reach = at.length == 0 ? 1 : Math.max(-at[0], at[at.length - 1]);
    double sd = at.length == 0 ? 1 : USUAL_SD * Math.max(0.01, level[0]);
    usual = 1 / (sd * sd);
    shape = new double[] {0, 0, 1};
    levels = new double[TERMS];
    squares = Double.MAX_VALUE;
  }

  /**
   * Fits a profile.
   *
   * @param at distances from a first guess of the edge, px, outwards positive
   * @param level mean level at each
   * @param weight inverse variance of each
   */
  static EdgeModel fit(double[] at, double[] level, double[] weight) {
    Points all = new Points(at, level, weight);
    EdgeModel plain = sought(all, 0);
    // Thin and wide rings are sought apart: the search must not stay in a false hollow.
    EdgeModel ring = sought(all, WIDTHS);
    ring.weighUsual();
    double gain = plain.squares - ring.squares;
    return gain > GAIN && gain > SHARE * plain.squares ? ring : plain;
  }

  /** The best of a search with neighbours two by two, fitted to all. */
  private static EdgeModel sought(Points all, double... widths) {
    EdgeModel rough = new EdgeModel(all.byTwo());
    for (double width : widths) {
      rough.search(2 * width * rough.reach);
    }
    EdgeModel fine = new EdgeModel(all);
    if (rough.squares < Double.MAX_VALUE) {
      double from = fine.squares(rough.shape, new double[TERMS]);
      fine.descend(rough.shape, from, rough.shape[1] == 0);
    }
    return fine;
  }

  /** A profile about a guess that this model moved: only the near best of its kind is sought. */
  EdgeModel again(double[] at, double[] level, double[] weight) {
    EdgeModel near = new EdgeModel(new Points(at, level, weight));
    double[] start = {0, shape[1], shape[2]};
    near.descend(start, near.squares(start, new double[TERMS]), shape[1] == 0);
    return near;
  }

  /** Where more is left than the noise explains, what is usual weighs as much more. */
  private void weighUsual() {
    double over = squares / Math.max(1, at.length);
    if (shape[1] > 0 && over > 1) {
      usual *= over;
      double from = squares(shape, new double[TERMS]);
      squares = Double.MAX_VALUE;
      descend(shape, from, false);
    }
  }

  /**
   * Whether levels and widths are those of a ring: both its steps are seen, and one that lies
   * between its neighbours in level is wider than what a blur of another shape would feign.
   */
  private static boolean isRing(double[] t, double[] x) {
    double first = x[1] - x[0];
    double second = x[2] - x[1];
    return Math.abs(first) > LEAST * Math.abs(second)
        && Math.abs(second) > LEAST * Math.abs(first)
        && (first * second < 0 || t[1] > STAIR * t[2]);
  }

  /** Where the cladding ends, px from the first guess. */
  double place() {
    return shape[0];
  }

  /** Width of the ring, px; 0 for none. */
  double ring() {
    return shape[1];
  }

  /** Standard deviation of the blur, px. */
  double sigma() {
    return shape[2];
  }

  /** Level just outside the cladding less level inside. */
  double step() {
    return (shape[1] > 0 ? levels[1] : levels[2]) - levels[0];
  }

  /** Level at a distance. */
  double level(double d) {
    double[] row = new double[TERMS];
    row(shape, d, row);
    double v = 0;
    for (int k = 0; k < TERMS; k++) {
      v += levels[k] * row[k];
    }
    return v;
  }

  private void search(double width) {
    double[] best = shape;
    double least = Double.MAX_VALUE;
    double grid = reach / 15;
    double[] x = new double[TERMS];
    for (double sigma = FINEST; sigma < reach / 5; sigma *= NEXT) {
      for (double p = -0.6 * reach; p <= 0.6 * reach; p += grid) {
        double[] t = {p, width, sigma};
        double s = squares(t, x);
        if (s < least && (width == 0 || isRing(t, x))) {
          least = s;
          best = t;
        }
      }
    }
    if (least < Double.MAX_VALUE) {
      descend(best, least, width == 0);
    }
  }

  /** Levenberg-Marquardt; where there is no ring its width stays 0. */
  private void descend(double[] start, double from, boolean plain) {
    int n = at.length;
    double[] t = start.clone();
    double[] x = new double[TERMS];
    double now = from;
    double damp = 1e-3;
    int[] free = plain ? new int[] {0, 2} : new int[] {0, 1, 2};
    double[] rest = new double[n + 1];
    double[][] slope = new double[free.length][n + 1];
    for (int round = 0; round < 40 && damp < 1e6; round++) {
      squares(t, x);
      rests(t, x, rest);
      for (int k = 0; k < free.length; k++) {
        double[] u = t.clone();
        double h = 1e-3;
        u[free[k]] += h;
        squares(u, x);
        rests(u, x, slope[k]);
        for (int i = 0; i <= n; i++) {
          slope[k][i] = (slope[k][i] - rest[i]) / h;
        }
      }
      double[][] normal = new double[free.length][free.length + 1];
      for (int j = 0; j < free.length; j++) {
        for (int i = 0; i <= n; i++) {
          double w = i < n ? weight[i] : usual;
          for (int k = 0; k < free.length; k++) {
            normal[j][k] += w * slope[j][i] * slope[k][i];
          }
          normal[j][free.length] -= w * slope[j][i] * rest[i];
        }
      }
      boolean better = false;
      while (!better && damp < 1e6) {
        double[][] a = new double[free.length][];
        for (int j = 0; j < free.length; j++) {
          a[j] = normal[j].clone();
          a[j][j] = a[j][j] * (1 + damp) + 1e-12;
        }
        double[] step = CircleFit.solved(a);
        double[] u = t.clone();
        for (int k = 0; k < free.length; k++) {
          u[free[k]] += step[k];
        }
        u[2] = Math.abs(u[2]);
        boolean allowed =
            u[2] > 0.25
                && u[2] < reach / 2
                && Math.abs(u[0]) < reach
                && (plain || (u[1] > 0.15 && u[1] < reach));
        double s = allowed ? squares(u, x) : Double.MAX_VALUE;
        if (s < now && (plain || isRing(u, x))) {
          boolean settled = now - s < 1e-6 * now;
          t = u;
          now = s;
          damp = settled ? 1e9 : Math.max(1e-9, damp / 5);
          better = true;
        } else {
          damp *= 4;
        }
      }
    }
    if (now < squares) {
      shape = t;
      squares = squares(t, levels);
    }
  }

  private void rests(double[] t, double[] x, double[] rest) {
    double[] row = new double[TERMS];
    for (int i = 0; i < at.length; i++) {
      row(t, at[i], row);
      double v = level[i];
      for (int k = 0; k < TERMS; k++) {
        v -= x[k] * row[k];
      }
      rest[i] = v;
    }
    rest[at.length] = t[1] > 0 ? USUAL * x[0] - x[1] : 0;
  }

  /**
   * A profile: distances, levels, inverse variances.
   *
   * @param at px from a first guess of the edge
   */
  private record Points(double[] at, double[] level, double[] weight) {

    Points byTwo() {
      int n = at.length / 2;
      double[] a = new double[n];
      double[] v = new double[n];
      double[] w = new double[n];
      for (int i = 0; i < n; i++) {
        w[i] = weight[2 * i] + weight[2 * i + 1];
        double share = weight[2 * i] / w[i];
        a[i] = share * at[2 * i] + (1 - share) * at[2 * i + 1];
        v[i] = share * level[2 * i] + (1 - share) * level[2 * i + 1];
      }
      return new Points(a, v, w);
    }

    /**
     * Normal equations of the five terms of a row, written out: this is most of the time that a fit
     * takes. Returns the weighted squares of the levels themselves.
     */
    double sums(double[] t, double reach, double[][] a) {
      double uu = 0;
      double um = 0;
      double us = 0;
      double mm = 0;
      double ms = 0;
      double ss = 0;
      double uuD = 0;
      double umD = 0;
      double usD = 0;
      double msD = 0;
      double ssD = 0;
      double uuDd = 0;
      double usDd = 0;
      double ssDd = 0;
      double uv = 0;
      double mv = 0;
      double sv = 0;
      double uvD = 0;
      double svD = 0;
      double vv = 0;
      boolean ring = t[1] > 0;
      double perSigma = 1 / t[2];
      for (int i = 0; i < at.length; i++) {
        double z = (at[i] - t[0]) * perSigma;
        double first = normal(z);
        double s = ring ? normal(z - t[1] * perSigma) : first;
        double d = at[i] / reach;
        double u = 1 - first;
        double m = first - s;
        double w = weight[i];
        double wu = w * u;
        double ws = w * s;
        double wm = w * m;
        double v = level[i];
        uu += wu * u;
        um += wu * m;
        us += wu * s;
        mm += wm * m;
        ms += wm * s;
        ss += ws * s;
        uuD += wu * u * d;
        umD += wu * m * d;
        usD += wu * s * d;
        msD += wm * s * d;
        ssD += ws * s * d;
        uuDd += wu * u * d * d;
        usDd += wu * s * d * d;
        ssDd += ws * s * d * d;
        uv += wu * v;
        mv += wm * v;
        sv += ws * v;
        uvD += wu * v * d;
        svD += ws * v * d;
        vv += w * v * v;
      }
      a[0] = new double[] {uu, um, us, uuD, usD, uv};
      a[1] = new double[] {um, mm, ms, umD, msD, mv};
      a[2] = new double[] {us, ms, ss, usD, ssD, sv};
      a[3] = new double[] {uuD, umD, usD, uuDd, usDd, uvD};
      a[4] = new double[] {usD, msD, ssD, usDd, ssDd, svD};
      return vv;
    }
  }

  private void row(double[] t, double d, double[] row) {
    double first = normal((d - t[0]) / t[2]);
    double second = t[1] > 0 ? normal((d - t[0] - t[1]) / t[2]) : first;
    row[0] = 1 - first;
    row[1] = first - second;
    row[2] = second;
    row[3] = (1 - first) * d / reach;
    row[4] = second * d / reach;
  }

  /** Weighted squares left; leaves the levels in {@code x}. A ring's level is not below black. */
  private double squares(double[] t, double[] x) {
    double[][] a = new double[TERMS][TERMS + 1];
    double vv = points.sums(t, reach, a);
    double[] right = new double[TERMS];
    for (int j = 0; j < TERMS; j++) {
      right[j] = a[j][TERMS];
    }
    boolean ring = t[1] > 0;
    if (ring) {
      a[0][0] += usual * USUAL * USUAL;
      a[0][1] -= usual * USUAL;
      a[1][0] -= usual * USUAL;
      a[1][1] += usual;
    }
    double[] found = ring ? solved(a, -1) : solved(a, 1);
    if (ring && found[1] < 0) {
      found = solved(a, 1);
    }
    double left = vv;
    for (int j = 0; j < TERMS; j++) {
      x[j] = found[j];
      left -= found[j] * right[j];
    }
    return Math.max(left, 0) + 1e-9;
  }

  /** Solves with one unknown held at 0; -1 for none. */
  private static double[] solved(double[][] a, int held) {
    double[][] b = new double[TERMS][];
    for (int j = 0; j < TERMS; j++) {
      b[j] = a[j].clone();
      b[j][j] = b[j][j] * (1 + 1e-10) + 1e-12;
      if (j == held) {
        Arrays.fill(b[j], 0);
        b[j][j] = 1;
      } else if (held >= 0) {
        b[j][held] = 0;
      }
    }
    return CircleFit.solved(b);
  }

  private static final double TABLE_TO = 6;
  private static final int TABLE_STEPS = 3000;
  private static final double[] NORMAL = table();

  private static double[] table() {
    double[] out = new double[TABLE_STEPS + 2];
    double h = 2 * TABLE_TO / TABLE_STEPS;
    double sum = 0;
    for (int i = 0; i < out.length; i++) {
      out[i] = sum;
      double from = -TABLE_TO + i * h;
      // Simpson's rule on each step.
      sum += h / 6 * (density(from) + 4 * density(from + h / 2) + density(from + h));
    }
    return out;
  }

  private static double density(double z) {
    return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
  }

  /** Normal distribution function, from a table, to 1e-6. */
  static double normal(double z) {
    double at = (z + TABLE_TO) * (TABLE_STEPS / (2 * TABLE_TO));
    if (!(at > 0)) {
      return 0;
    }
    if (at >= TABLE_STEPS) {
      return 1;
    }
    int i = (int) at;
    return NORMAL[i] + (at - i) * (NORMAL[i + 1] - NORMAL[i]);
  }
}
