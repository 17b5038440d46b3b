package ferrule.vision.scene;

import java.util.List;

/** A planted flaw, in micrometres from the fibre's centre. */
public sealed interface Mark {
  /** Its level less the local level, as a share of the local level. */
  double contrast();

  /** Share of a pixel's area that the flaw covers, by first-order distance. */
  double cover(double x, double y, double px);

  /** Largest distance of any of its points from the centre. */
  double reach();

  /** Smallest distance of any of its points from the centre. */
  double nearest();

  /**
   * An ellipse: particle, pit, chip or film.
   *
   * @param size its longer axis, which is the diameter of the smallest circle around it
   * @param flat shorter axis over longer
   */
  record Spot(double x, double y, double size, double flat, double turn, double contrast)
      implements Mark {
    @Override
    public double cover(double px, double py, double pixel) {
      double dx = px - x;
      double dy = py - y;
      if (Math.abs(dx) > size || Math.abs(dy) > size) {
        return 0;
      }
      double a = size / 2;
      double b = a * flat;
      double u = dx * Math.cos(turn) + dy * Math.sin(turn);
      double v = -dx * Math.sin(turn) + dy * Math.cos(turn);
      double rho = Math.hypot(u / a, v / b);
      if (rho < 1e-9) {
        return 1;
      }
      double slope = Math.hypot(u / (a * a), v / (b * b)) / rho;
      return Math.min(1, Math.max(0, 0.5 - (rho - 1) / slope / pixel));
    }

    @Override
    public double reach() {
      return extreme(true);
    }

    @Override
    public double nearest() {
      return cover(0, 0, 1e-6) > 0.5 ? 0 : extreme(false);
    }

    private double extreme(boolean far) {
      double best = far ? 0 : Double.MAX_VALUE;
      for (int i = 0; i < 720; i++) {
        double t = Math.PI * i / 360;
        double u = size / 2 * Math.cos(t);
        double v = size / 2 * flat * Math.sin(t);
        double r =
            Math.hypot(
                x + u * Math.cos(turn) - v * Math.sin(turn),
                y + u * Math.sin(turn) + v * Math.cos(turn));
        best = far ? Math.max(best, r) : Math.min(best, r);
      }
      return best;
    }
  }

  /** A scratch along the points {x, y}, in short straight steps where it is curved. */
  record Line(List<double[]> points, double width, double contrast) implements Mark {
    @Override
    public double cover(double px, double py, double pixel) {
      double d = distance(px, py);
      double low = Math.max(d - pixel / 2, -width / 2);
      double high = Math.min(d + pixel / 2, width / 2);
      return Math.max(0, high - low) / pixel;
    }

    /** Distance of a place from the scratch's middle line, µm. */
    public double distance(double px, double py) {
      double d = Double.MAX_VALUE;
      for (int i = 1; i < points.size(); i++) {
        double[] a = points.get(i - 1);
        double[] b = points.get(i);
        double ux = b[0] - a[0];
        double uy = b[1] - a[1];
        double t = ((px - a[0]) * ux + (py - a[1]) * uy) / (ux * ux + uy * uy);
        t = Math.min(1, Math.max(0, t));
        d = Math.min(d, Math.hypot(px - a[0] - t * ux, py - a[1] - t * uy));
      }
      return d;
    }

    @Override
    public double reach() {
      return points.stream().mapToDouble(p -> Math.hypot(p[0], p[1])).max().orElse(0) + width / 2;
    }

    @Override
    public double nearest() {
      return Math.max(0, distance(0, 0) - width / 2);
    }

    /** Length along its points, µm. */
    public double length() {
      double sum = 0;
      for (int i = 1; i < points.size(); i++) {
        sum +=
            Math.hypot(
                points.get(i)[0] - points.get(i - 1)[0], points.get(i)[1] - points.get(i - 1)[1]);
      }
      return sum;
    }
  }
}
