package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The face as it would look without flaws: a median by distance from the centre, a core of its own
 * within it, times a smooth surface of light.
 */
final class FlawlessFace {
  /** Within this distance the rings hold few pixels and share one median, µm. */
  private static final double MIDDLE_UM = 2.2;

  /** From here on the ferrule is of one level, µm. */
  private static final double FERRULE_UM = 72;

  /** A ring speaks for itself if so much of it is in the picture. */
  private static final double HALF = 0.5;

  private static final int TERMS = 10;

  /** How often the light is fitted about a profile, and the profile made anew under that light. */
  private static final int LIGHT_ROUNDS = 2;

  /** Light and profile in turn, so often. */
  private static final int ROUNDS = 2;

  /** Light is fitted about a profile from so many pixels a ring. */
  private static final int FEW = 60;

  /** Squares across the face for the light, and every which pixel of one is looked at. */
  private static final int SQUARES = 28;

  private static final int SPARSE = 2;

  private static final float DARKEST = 0.05f;

  /** How many steps the profile is read at by ring. */
  private static final int FINER = 8;

  private final FaceFrame frame;
  private final float[] lit;

  private FlawlessFace(FaceFrame frame) {
    this.frame = frame;
    lit = new float[frame.size()];
  }

  /** By which share each pixel differs from the face without flaws; 0 outside the contact zone. */
  static float[] rest(FaceFrame frame) {
    return new FlawlessFace(frame).rest();
  }

  private float[] rest() {
    float[] rest = new float[frame.size()];
    float[] pixels = frame.grey().pixels();
    int rings = frame.rings(Math.max(0.25, frame.um() / 2));
    float perUm = (float) (FINER / frame.ringUm(rings));
    System.arraycopy(pixels, 0, lit, 0, lit.length);
    for (int round = 0; round < LIGHT_ROUNDS; round++) {
      takeOut(surface(finer(profile(rings, FEW)), perUm));
    }
    float[] fine = finer(profile(rings, FaceFrame.ENOUGH));
    for (int i = 0; i < rest.length; i++) {
      rest[i] = fine[at(i, fine, perUm)];
    }
    divide(rest, lit, rest);
    for (int i = 0; i < rest.length; i++) {
      rest[i] = frame.looked(i) ? rest[i] - 1 : 0;
    }
    CoreModel.fit(frame, lit).ifPresent(core -> core.replace(lit, rest));
    return rest;
  }

  private static void divide(float[] to, float[] above, float[] below) {
    for (int i = 0; i < to.length; i++) {
      to[i] = above[i] / below[i];
    }
  }

  /** Where in a fine profile a pixel is. */
  private int at(int i, float[] fine, float perUm) {
    return Math.min(fine.length - 1, (int) (frame.radius(i) * perUm));
  }

  /** The profile at the middles of finer rings, by straight lines. */
  private static float[] finer(double[] profile) {
    float[] fine = new float[profile.length * FINER];
    for (int k = 0; k < fine.length; k++) {
      double at = Math.min(Math.max(0, (k + 0.5) / FINER - 0.5), profile.length - 1.001);
      int b = (int) at;
      fine[k] = (float) Math.max(0.01, profile[b] + (at - b) * (profile[b + 1] - profile[b]));
    }
    return fine;
  }

  private double[] profile(int rings, int enough) {
    double[] out = frame.medians(lit, rings, 1, false, enough);
    int[] middle = frame.within(MIDDLE_UM);
    double last =
        OrderStats.quantileInPlace(Arrays.stream(middle).mapToDouble(i -> lit[i]).toArray(), 0.5);
    double ferrule = Double.NaN;
    for (int b = 0; b < out.length; b++) {
      double r = (b + 0.5) * frame.ringUm(rings);
      boolean few = r < MIDDLE_UM;
      last = few || Double.isNaN(out[b]) ? last : out[b];
      if (r > FERRULE_UM && frame.seen(b, rings) > HALF) {
        ferrule = Double.isNaN(ferrule) ? last : 0.9 * ferrule + 0.1 * last;
      }
      // In the corners a ring's median would take one side's light for the ferrule's level.
      boolean corner = r > FERRULE_UM && frame.seen(b, rings) <= HALF && !Double.isNaN(ferrule);
      out[b] = corner ? ferrule : last;
    }
    return out;
  }

  /** A cubic surface of light through medians of small squares, outliers weighed out. */
  private double[] surface(float[] fine, float perUm) {
    float[] pixels = frame.grey().pixels();
    int width = frame.width();
    int cell = Math.max(4, width / SQUARES);
    List<double[]> rows = new ArrayList<>();
    double[] v = new double[cell * cell];
    for (int y = 0; y + cell <= frame.height(); y += cell) {
      for (int x = 0; x + cell <= width; x += cell) {
        int n = 0;
        for (int j = 0; j < cell; j += SPARSE) {
          for (int k = 0; k < cell; k += SPARSE) {
            int i = (y + j) * width + x + k;
            if (frame.looked(i)) {
              v[n++] = pixels[i] / fine[at(i, fine, perUm)];
            }
          }
        }
        if (n > cell * cell / (2 * SPARSE * SPARSE)) {
          double[] row = new double[TERMS + 1];
          terms(x + (cell - 1) / 2.0, y + (cell - 1) / 2.0, row);
          row[TERMS] = OrderStats.quantileInPlace(v, n, 0.5);
          rows.add(row);
        }
      }
    }
    double[] x = new double[TERMS];
    x[0] = 1;
    double scatter = 1;
    for (int round = 0; round < 6; round++) {
      double[][] a = new double[TERMS][TERMS + 1];
      double[] off = new double[rows.size()];
      for (int r = 0; r < rows.size(); r++) {
        double[] row = rows.get(r);
        double e = row[TERMS] - value(x, row);
        off[r] = Math.abs(e);
        double u = round == 0 ? 0 : e / (4 * scatter);
        double w = Math.abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0;
        for (int j = 0; j < TERMS && w > 0; j++) {
          double[] sums = a[j];
          double wr = w * row[j];
          for (int k = j; k <= TERMS; k++) {
            sums[k] += wr * row[k];
          }
        }
      }
      for (int j = 0; j < TERMS; j++) {
        for (int k = 0; k < j; k++) {
          a[j][k] = a[k][j];
        }
        a[j][j] += 1e-6;
      }
      x = CircleFit.solved(a);
      double half = OrderStats.quantileInPlace(off, 0.5);
      scatter = Math.max(0.002, round == 0 ? 0.1 : OrderStats.SD_OVER_MAD * half);
    }
    return x;
  }

  /** Takes the light out of the picture. */
  private void takeOut(double[] x) {
    int width = frame.width();
    float[] across = new float[width];
    for (int i = 0; i < width; i++) {
      across[i] = (float) (frame.xUm(i) / 125);
    }
    float[] line = new float[width];
    float[] row = new float[width];
    float[] pixels = frame.grey().pixels();
    for (int j = 0; j < frame.height(); j++) {
      double y = frame.yUm(j) / 125;
      float c0 = (float) (x[0] + y * (x[2] + y * (x[5] + y * x[9])));
      float c1 = (float) (x[1] + y * (x[4] + y * x[8]));
      float c2 = (float) (x[3] + y * x[7]);
      float c3 = (float) x[6];
      for (int i = 0; i < width; i++) {
        float u = across[i];
        line[i] = Math.max(DARKEST, c0 + u * (c1 + u * (c2 + u * c3)));
      }
      System.arraycopy(pixels, j * width, row, 0, width);
      divide(line, row, line);
      System.arraycopy(line, 0, lit, j * width, width);
    }
  }

  private void terms(double px, double py, double[] row) {
    double x = frame.xUm(px) / 125;
    double y = frame.yUm(py) / 125;
    row[0] = 1;
    row[1] = x;
    row[2] = y;
    row[3] = x * x;
    row[4] = x * y;
    row[5] = y * y;
    row[6] = x * x * x;
    row[7] = x * x * y;
    row[8] = x * y * y;
    row[9] = y * y * y;
  }

  private static double value(double[] x, double[] row) {
    double v = 0;
    for (int j = 0; j < x.length; j++) {
      v += x[j] * row[j];
    }
    return v;
  }
}
