package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * The part of a picture that shows the contact zone, with each pixel's distance from the cladding's
 * centre. A picture finer than flaws ask for is made coarser first, so that the work does not grow
 * with the camera.
 */
final class FaceFrame {
  /** Diameter that is looked at, µm: the contact zone's. */
  static final double LOOKED_AT_UM = 250;

  /** A finer picture is brought to this scale, µm/px: 2 µm must be seen. */
  private static final double SCALE_UM = 0.6;

  /** Width of the finest rings about the centre, in pixels. */
  private static final double RING_PX = 0.5;

  /** A ring's median is taken from so many pixels at least, spread evenly, if it has them. */
  static final int ENOUGH = 200;

  private final Grey grey;
  private final double cx;
  private final double cy;
  private final double umX;
  private final double umY;
  private final double um;
  private final double blurPx;
  private final int width;
  private final int height;
  private final float[] radius;

  /** Number of the finest ring each pixel lies in. */
  private final int[] finest;

  /** Pixels within reach ordered by ring, and where each ring begins. */
  private final int[] byRing;

  private final int[] begin;
  private final double ringUm;

  /**
   * Cuts the frame out.
   *
   * @param blurPx standard deviation of the point spread in the picture, px
   * @param umX scale along x, µm/px
   * @param umY scale along y, µm/px
   */
  FaceFrame(Grey picture, Cladding edge, double blurPx, double umX, double umY) {
    double fx = Math.max(1, SCALE_UM / umX);
    double fy = Math.max(1, SCALE_UM / umY);
    this.umX = umX * fx;
    this.umY = umY * fy;
    um = Math.sqrt(this.umX * this.umY);
    // A mean over so many pixels spreads by its own standard deviation.
    double wide = Math.sqrt(fx * fy);
    this.blurPx = Math.sqrt(blurPx * blurPx + (wide * wide - 1) / 12) / wide;
    // Edges of pixels, from the picture's left and top.
    double left = Math.max(0, edge.cx() + 0.5 - LOOKED_AT_UM / 2 / umX);
    double top = Math.max(0, edge.cy() + 0.5 - LOOKED_AT_UM / 2 / umY);
    if (fx == 1) {
      left = Math.floor(left);
    }
    if (fy == 1) {
      top = Math.floor(top);
    }
    double right = Math.min(picture.width(), edge.cx() + 0.5 + LOOKED_AT_UM / 2 / umX);
    double bottom = Math.min(picture.height(), edge.cy() + 0.5 + LOOKED_AT_UM / 2 / umY);
    width = (int) Math.max(1, (right - left) / fx);
    height = (int) Math.max(1, (bottom - top) / fy);
    cx = (edge.cx() + 0.5 - left) / fx - 0.5;
    cy = (edge.cy() + 0.5 - top) / fy - 0.5;
    grey = picture.averaged(left, top, fx, fy, width, height);
    radius = new float[width * height];
    ringUm = RING_PX * um;
    int rings = (int) (LOOKED_AT_UM / 2 / ringUm) + 2;
    begin = new int[rings + 1];
    measureRadii();
    finest = new int[radius.length];
    float perUm = (float) (1 / ringUm);
    for (int i = 0; i < finest.length; i++) {
      finest[i] = (int) (radius[i] * perUm);
    }
    for (int i = 0; i < finest.length; i++) {
      if (looked(i)) {
        begin[finest[i] + 1]++;
      }
    }
    for (int b = 0; b < rings; b++) {
      begin[b + 1] += begin[b];
    }
    byRing = new int[begin[rings]];
    int[] next = begin.clone();
    for (int i = 0; i < finest.length; i++) {
      if (looked(i)) {
        byRing[next[finest[i]]++] = i;
      }
    }
  }

  private void measureRadii() {
    float[] across = new float[width];
    for (int x = 0; x < width; x++) {
      across[x] = (float) (xUm(x) * xUm(x));
    }
    float[] row = new float[width];
    for (int y = 0; y < height; y++) {
      float down = (float) (yUm(y) * yUm(y));
      for (int x = 0; x < width; x++) {
        row[x] = (float) Math.sqrt(across[x] + down);
      }
      System.arraycopy(row, 0, radius, y * width, width);
    }
  }

  Grey grey() {
    return grey;
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  /** How many pixels. */
  int size() {
    return radius.length;
  }

  /** Scale by which an area is a square of micrometres, µm/px. */
  double um() {
    return um;
  }

  /** Standard deviation of the point spread, px. */
  double blurPx() {
    return blurPx;
  }

  /** Distance of a pixel from the cladding's centre, µm. */
  float radius(int i) {
    return radius[i];
  }

  /** Whether a pixel lies in the contact zone. */
  boolean looked(int i) {
    return radius[i] < LOOKED_AT_UM / 2;
  }

  /** µm to the right of the cladding's centre. */
  double xUm(double x) {
    return (x - cx) * umX;
  }

  /** µm below the cladding's centre. */
  double yUm(double y) {
    return (y - cy) * umY;
  }

  /** µm to the right of the cladding's centre of a pixel. */
  double xOf(int i) {
    return xUm(i % width);
  }

  /** µm below the cladding's centre of a pixel. */
  double yOf(int i) {
    return yUm(i / width);
  }

  /** Number of the finest ring a pixel lies in. */
  int finest(int i) {
    return finest[i];
  }

  /**
   * Values by ring as values by finest ring.
   *
   * @param rings width of a ring in finest rings
   */
  double[] byFinest(double[] values, int rings) {
    double[] out = new double[values.length * rings];
    for (int k = 0; k < out.length; k++) {
      out[k] = values[k / rings];
    }
    return out;
  }

  /** As many of the finest rings as are about this wide, at least one. */
  int rings(double aboutUm) {
    return (int) Math.max(1, Math.round(aboutUm / ringUm));
  }

  /** How wide so many of the finest rings are, µm. */
  double ringUm(int rings) {
    return ringUm * rings;
  }

  /**
   * Median of a map by ring, from {@link #ENOUGH} pixels of each; NaN for a ring with fewer than
   * {@code least}.
   *
   * @param rings width of a ring in finest rings
   * @param absolute whether magnitudes are meant
   */
  double[] medians(float[] map, int rings, int least, boolean absolute) {
    return medians(map, rings, least, absolute, ENOUGH);
  }

  /** Medians by ring from about so many pixels of each. */
  double[] medians(float[] map, int rings, int least, boolean absolute, int enough) {
    double[] out = new double[(begin.length - 2) / rings + 2];
    double[] values = new double[2 * enough];
    for (int b = 0; b < out.length; b++) {
      int from = begin[Math.min(begin.length - 1, b * rings)];
      int to = begin[Math.min(begin.length - 1, (b + 1) * rings)];
      int stride = Math.max(1, (to - from) / enough);
      int n = 0;
      for (int k = from; k < to; k += stride) {
        float v = map[byRing[k]];
        values[n++] = absolute ? Math.abs(v) : v;
      }
      out[b] = n < Math.max(1, least) ? Double.NaN : OrderStats.quantileInPlace(values, n, 0.5);
    }
    return out;
  }

  /** Which share of a ring lies in the picture, 0 to 1. */
  double seen(int ring, int rings) {
    int from = begin[Math.min(begin.length - 1, ring * rings)];
    int to = begin[Math.min(begin.length - 1, (ring + 1) * rings)];
    double wide = ringUm * rings;
    return Math.min(1, (to - from) * umX * umY / (2 * Math.PI * (ring + 0.5) * wide * wide));
  }

  /** The pixels within a distance of the centre. */
  int[] within(double um) {
    int rings = (int) Math.min(begin.length - 1, Math.ceil(um / ringUm));
    int n = 0;
    int[] out = new int[begin[rings]];
    for (int k = 0; k < begin[rings]; k++) {
      if (radius[byRing[k]] < um) {
        out[n++] = byRing[k];
      }
    }
    return Arrays.copyOf(out, n);
  }
}
