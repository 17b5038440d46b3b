package ferrule.vision;

import java.util.Arrays;

/**
 * Brightness by pixel, row by row, linear in the stored value and scaled so that full white is 1.
 * The arrays are shared, not copied: they are large and nobody writes to them after they are made.
 */
public final class Grey {
  private final int width;
  private final int height;
  private final float[] pixels;

  /**
   * Wraps an array.
   *
   * @throws IllegalArgumentException if the array does not hold width times height values
   */
  public Grey(int width, int height, float[] pixels) {
    if (width < 1 || height < 1 || pixels.length != width * height) {
      throw new IllegalArgumentException(width + " by " + height + " of " + pixels.length);
    }
    this.width = width;
    this.height = height;
    this.pixels = pixels;
  }

  /** Pixels across. */
  public int width() {
    return width;
  }

  /** Pixels down. */
  public int height() {
    return height;
  }

  /** Brightness of one pixel, 0 to 1. */
  public float at(int x, int y) {
    return pixels[y * width + x];
  }

  float[] pixels() {
    return pixels;
  }

  /** Brightness between pixels, bilinear; places outside take the nearest pixel's. */
  public double at(double x, double y) {
    double px = x < 0 ? 0 : x > width - 1.0 ? width - 1.0 : x;
    double py = y < 0 ? 0 : y > height - 1.0 ? height - 1.0 : y;
    int x0 = Math.min((int) px, Math.max(0, width - 2));
    int y0 = Math.min((int) py, Math.max(0, height - 2));
    double fx = px - x0;
    double fy = py - y0;
    int right = width > 1 ? 1 : 0;
    int down = height > 1 ? width : 0;
    int i = y0 * width + x0;
    double top = pixels[i] + fx * (pixels[i + right] - pixels[i]);
    double bottom = pixels[i + down] + fx * (pixels[i + down + right] - pixels[i + down]);
    return top + fy * (bottom - top);
  }

  /** Means of squares of {@code factor} pixels; a remainder at the right and bottom is dropped. */
  Grey reduced(int factor) {
    return averaged(0, 0, factor, factor, width / factor, height / factor);
  }

  /**
   * Means over rectangles side by side, with parts of pixels at their edges.
   *
   * @param left edge of the first rectangle, in pixels from the picture's left edge; 0 or more
   * @param top edge of the first rectangle
   * @param fx width of a rectangle, px; 1 or more
   * @param fy height of a rectangle, px; 1 or more
   * @param across rectangles side by side; all lie in the picture
   * @param down rectangles one under the other
   */
  Grey averaged(double left, double top, double fx, double fy, int across, int down) {
    // Sums over whole rows of one rectangle's height first, then along them. Loops over whole
    // arrays at one index are what the compiler makes fast.
    float[] out = new float[across * down];
    int start = (int) left;
    int length = Math.min(width, (int) Math.ceil(left + across * fx)) - start;
    // Columns of one rectangle, some without a share so that they are taken four by four.
    int taps = ((int) Math.ceil(fx) + 4) / 4 * 4;
    float[] sums = new float[length + taps];
    float[] line = new float[length + taps];
    float[] share = new float[taps * across];
    int[] column = new int[across];
    float[] part = new float[across];
    for (int x = 0; x < across; x++) {
      double from = left + x * fx - start;
      double to = Math.min(length, from + fx);
      column[x] = (int) from;
      for (int k = 0; k < taps; k++) {
        int c = column[x] + k;
        double in = Math.min(c + 1, to) - Math.max(c, from);
        share[x * taps + k] = (float) (Math.max(0, in) / (to - from));
      }
    }
    for (int y = 0; y < down; y++) {
      Arrays.fill(sums, 0);
      double from = top + y * fy;
      double to = Math.min(height, from + fy);
      for (int row = (int) from; row < to; row++) {
        System.arraycopy(pixels, row * width + start, line, 0, length);
        add(sums, line, (float) ((Math.min(row + 1, to) - Math.max(row, from)) / (to - from)));
      }
      along(sums, column, share, taps, part);
      System.arraycopy(part, 0, out, y * across, across);
    }
    return new Grey(across, down, out);
  }

  private static void along(float[] sums, int[] column, float[] share, int taps, float[] out) {
    for (int x = 0; x < out.length; x++) {
      float sum = 0;
      for (int k = 0, s = x * taps, c = column[x]; k < taps; k += 4, s += 4, c += 4) {
        sum +=
            share[s] * sums[c]
                + share[s + 1] * sums[c + 1]
                + share[s + 2] * sums[c + 2]
                + share[s + 3] * sums[c + 3];
      }
      out[x] = sum;
    }
  }

  private static void add(float[] to, float[] line, float share) {
    for (int x = 0; x < to.length; x++) {
      to[x] += share * line[x];
    }
  }

  /** Convolved with a Gaussian of this standard deviation, pixels; the border repeats. */
  Grey blurred(double sigma) {
    if (sigma < 0.05) {
      return this;
    }
    float[] share = shares(sigma);
    int reach = share.length - 1;
    // The rows about one, each in the place of the one that is no longer needed.
    float[][] rows = new float[2 * reach + 1][width];
    for (int y = 0; y < Math.min(reach, height); y++) {
      System.arraycopy(pixels, y * width, rows[y % rows.length], 0, width);
    }
    float[] out = new float[pixels.length];
    float[] sum = new float[width];
    float[] line = new float[width + 2 * reach];
    float[] before = new float[width];
    float[] behind = new float[width];
    for (int y = 0; y < height; y++) {
      if (y + reach < height) {
        System.arraycopy(pixels, (y + reach) * width, rows[(y + reach) % rows.length], 0, width);
      }
      Arrays.fill(sum, 0);
      for (int k = 0; k <= reach; k++) {
        float[] above = rows[Math.max(0, y - k) % rows.length];
        addBoth(sum, above, rows[Math.min(height - 1, y + k) % rows.length], share[k]);
      }
      Arrays.fill(line, 0, reach, sum[0]);
      System.arraycopy(sum, 0, line, reach, width);
      Arrays.fill(line, reach + width, line.length, sum[width - 1]);
      Arrays.fill(sum, 0);
      for (int k = 0; k <= reach; k++) {
        System.arraycopy(line, reach - k, before, 0, width);
        System.arraycopy(line, reach + k, behind, 0, width);
        addBoth(sum, before, behind, share[k]);
      }
      System.arraycopy(sum, 0, out, y * width, width);
    }
    return new Grey(width, height, out);
  }

  /** One side of a Gaussian of sum 1; half of the middle, which both sides share. */
  private static float[] shares(double sigma) {
    float[] share = new float[(int) Math.ceil(3.5 * sigma) + 1];
    double sum = 0;
    for (int i = 1 - share.length; i < share.length; i++) {
      sum += Math.exp(-0.5 * i * i / (sigma * sigma));
    }
    for (int i = 0; i < share.length; i++) {
      share[i] = (float) (Math.exp(-0.5 * i * i / (sigma * sigma)) / (i == 0 ? 2 * sum : sum));
    }
    return share;
  }

  private static void addBoth(float[] to, float[] before, float[] behind, float share) {
    for (int x = 0; x < to.length; x++) {
      to[x] += share * (before[x] + behind[x]);
    }
  }
}
