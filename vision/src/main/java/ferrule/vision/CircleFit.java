package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * Circles and upright ellipses through points.
 *
 * @param cx centre
 * @param cy centre
 * @param rx half axis along x
 * @param ry half axis along y, equal to {@code rx} for a circle
 */
record CircleFit(double cx, double cy, double rx, double ry) {

  /**
   * Taubin's fit of a circle, by Newton's method (Taubin 1991; Al-Sharadqah and Chernov 2009,
   * Electron. J. Statist. 3, 886: no bias of note on partial arcs).
   *
   * @throws IllegalArgumentException for fewer than three points
   */
  static CircleFit taubin(double[] x, double[] y) {
    int n = x.length;
    if (n < 3) {
      throw new IllegalArgumentException("a circle needs three points");
    }
    double mx = Arrays.stream(x).average().orElse(0);
    double my = Arrays.stream(y).average().orElse(0);
    double xx = 0;
    double yy = 0;
    double xy = 0;
    double xz = 0;
    double yz = 0;
    double zz = 0;
    for (int i = 0; i < n; i++) {
      double u = x[i] - mx;
      double v = y[i] - my;
      double z = u * u + v * v;
      xx += u * u / n;
      yy += v * v / n;
      xy += u * v / n;
      xz += u * z / n;
      yz += v * z / n;
      zz += z * z / n;
    }
    double mz = xx + yy;
    double cov = xx * yy - xy * xy;
    double a3 = 4 * mz;
    double a2 = -3 * mz * mz - zz;
    double a1 = zz * mz + 4 * cov * mz - xz * xz - yz * yz - mz * mz * mz;
    double a0 = xz * xz * yy + yz * yz * xx - zz * cov - 2 * xz * yz * xy + mz * mz * cov;
    double t = 0;
    for (int i = 0; i < 99; i++) {
      double slope = a1 + t * (2 * a2 + 3 * a3 * t);
      double next = t - (a0 + t * (a1 + t * (a2 + t * a3))) / slope;
      if (!Double.isFinite(next) || Math.abs(next - t) <= 1e-14 * Math.abs(next)) {
        break;
      }
      t = next;
    }
    double det = 2 * (t * t - t * mz + cov);
    double u = (xz * (yy - t) - yz * xy) / det;
    double v = (yz * (xx - t) - xz * xy) / det;
    double r = Math.sqrt(u * u + v * v + mz);
    return new CircleFit(u + mx, v + my, r, r);
  }

  /**
   * Least squares of distances along the rays from the centre, Gauss-Newton from this fit; a circle
   * or an ellipse with axes along x and y. Weights may leave points out.
   */
  CircleFit refined(double[] x, double[] y, double[] weight, boolean ellipse) {
    double a = cx;
    double b = cy;
    double p = rx;
    double q = ry;
    int m = ellipse ? 4 : 3;
    for (int round = 0; round < 100; round++) {
      double[][] normal = new double[m][m + 1];
      for (int i = 0; i < x.length; i++) {
        double dx = x[i] - a;
        double dy = y[i] - b;
        double d = Math.hypot(dx, dy);
        if (d < 1e-12 || weight[i] == 0) {
          continue;
        }
        double c = dx / d;
        double s = dy / d;
        double radius = 1 / Math.sqrt(c * c / (p * p) + s * s / (q * q));
        double cube = radius * radius * radius;
        double[] row =
            ellipse
                ? new double[] {c, s, cube * c * c / (p * p * p), cube * s * s / (q * q * q)}
                : new double[] {c, s, 1};
        double rest = d - radius;
        for (int j = 0; j < m; j++) {
          for (int k = 0; k < m; k++) {
            normal[j][k] += weight[i] * row[j] * row[k];
          }
          normal[j][m] += weight[i] * row[j] * rest;
        }
      }
      double[] step = solved(normal);
      a += step[0];
      b += step[1];
      p += step[2];
      q = ellipse ? q + step[3] : p;
      double most = 0;
      for (double v : step) {
        most = Math.max(most, Math.abs(v));
      }
      if (!(most > 1e-9)) {
        break;
      }
    }
    return new CircleFit(a, b, p, q);
  }

  /**
   * A circle or an upright ellipse through points of which some lie astray, weighed out by Tukey's
   * function: an ellipse only where the two axes differ by more than their doubt.
   *
   * @param trust weight of each point beforehand, 0 to 1
   */
  static CircleFit robust(CircleFit start, double[] x, double[] y, double[] trust) {
    double[] weight = new double[x.length];
    double[] rest = new double[x.length];
    double[] size = new double[x.length];
    CircleFit circle = start;
    CircleFit ellipse = start;
    double scatter = 0;
    double sum = 0;
    for (int round = 0; round < 8; round++) {
      int n = 0;
      for (int i = 0; i < x.length; i++) {
        rest[i] = ellipse.rest(x[i], y[i]);
        if (trust[i] > 0) {
          size[n++] = rest[i];
        }
      }
      double middle = OrderStats.quantileInPlace(size, n, 0.5);
      for (int i = 0; i < n; i++) {
        size[i] = Math.abs(size[i] - middle);
      }
      double mad = OrderStats.SD_OVER_MAD * OrderStats.quantileInPlace(size, n, 0.5);
      scatter = Math.max(0.02, mad);
      double from = round == 0 ? middle : 0;
      sum = 0;
      for (int i = 0; i < x.length; i++) {
        double u = (rest[i] - from) / ((round < 2 ? 6 : 4) * scatter);
        weight[i] = trust[i] * (Math.abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0);
        sum += weight[i];
      }
      circle = circle.refined(x, y, weight, false);
      ellipse = ellipse.refined(x, y, weight, true);
    }
    double sd = scatter / Math.sqrt(Math.max(1, sum) / 4.0);
    boolean round =
        Math.abs(ellipse.rx - ellipse.ry) < 5 * sd || Math.abs(ellipse.rx / ellipse.ry - 1) < 0.004;
    return round ? circle : ellipse;
  }

  /** Signed distance along the ray from the centre, points outside positive. */
  double rest(double x, double y) {
    double dx = x - cx;
    double dy = y - cy;
    double d = Math.hypot(dx, dy);
    return d < 1e-12 ? -Math.min(rx, ry) : d - radiusAlong(dx / d, dy / d);
  }

  /** Radius in the direction of this unit vector. */
  double radiusAlong(double c, double s) {
    return 1 / Math.sqrt(c * c / (rx * rx) + s * s / (ry * ry));
  }

  static double[] solved(double[][] a) {
    int n = a.length;
    for (int i = 0; i < n; i++) {
      int best = i;
      for (int k = i + 1; k < n; k++) {
        if (Math.abs(a[k][i]) > Math.abs(a[best][i])) {
          best = k;
        }
      }
      double[] swap = a[i];
      a[i] = a[best];
      a[best] = swap;
      if (a[i][i] == 0) {
        return new double[n];
      }
      for (int k = i + 1; k < n; k++) {
        double f = a[k][i] / a[i][i];
        for (int j = i; j <= n; j++) {
          a[k][j] -= f * a[i][j];
        }
      }
    }
    double[] out = new double[n];
    for (int i = n - 1; i >= 0; i--) {
      double v = a[i][n];
      for (int j = i + 1; j < n; j++) {
        v -= a[i][j] * out[j];
      }
      out[i] = v / a[i][i];
    }
    return out;
  }
}
