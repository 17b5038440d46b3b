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
    double px = Math.min(Math.max(x, 0), width - 1.0);
    double py = Math.min(Math.max(y, 0), height - 1.0);
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
    // Sums over whole rows of one rectangle's height first, then along them.
    float[] out = new float[across * down];
    float[] sums = new float[width];
    for (int y = 0; y < down; y++) {
      Arrays.fill(sums, 0);
      double from = top + y * fy;
      double to = Math.min(height, from + fy);
      for (int row = (int) from; row < to; row++) {
        float share = (float) ((Math.min(row + 1, to) - Math.max(row, from)) / (to - from));
        int at = row * width;
        for (int x = 0; x < width; x++) {
          sums[x] += share * pixels[at + x];
        }
      }
      for (int x = 0; x < across; x++) {
        double start = left + x * fx;
        double end = Math.min(width, start + fx);
        double sum = 0;
        for (int column = (int) start; column < end; column++) {
          sum += (Math.min(column + 1, end) - Math.max(column, start)) * sums[column];
        }
        out[y * across + x] = (float) (sum / (end - start));
      }
    }
    return new Grey(across, down, out);
  }

  /** Convolved with a Gaussian of this standard deviation, pixels; the border repeats. */
  Grey blurred(double sigma) {
    if (sigma < 0.05) {
      return this;
    }
    int reach = (int) Math.ceil(3.5 * sigma);
    float[] kernel = new float[2 * reach + 1];
    double sum = 0;
    for (int i = -reach; i <= reach; i++) {
      sum += Math.exp(-0.5 * i * i / (sigma * sigma));
    }
    for (int i = -reach; i <= reach; i++) {
      kernel[i + reach] = (float) (Math.exp(-0.5 * i * i / (sigma * sigma)) / sum);
    }
    float[] across = new float[pixels.length];
    float[] line = new float[width + 2 * reach];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < line.length; x++) {
        line[x] = pixels[y * width + Math.min(Math.max(x - reach, 0), width - 1)];
      }
      for (int x = 0; x < width; x++) {
        float v = 0;
        for (int k = 0; k < kernel.length; k++) {
          v += kernel[k] * line[x + k];
        }
        across[y * width + x] = v;
      }
    }
    float[] out = new float[pixels.length];
    for (int y = 0; y < height; y++) {
      for (int k = 0; k < kernel.length; k++) {
        int from = Math.min(Math.max(y + k - reach, 0), height - 1) * width;
        float share = kernel[k];
        int to = y * width;
        for (int x = 0; x < width; x++) {
          out[to + x] += share * across[from + x];
        }
      }
    }
    return new Grey(width, height, out);
  }
}
