package ferrule.vision;

import java.util.Arrays;

/**
 * Pixels that hang together, by index into a {@link FaceFrame}.
 *
 * @param pixels which
 * @param sign 1 where brighter than the face, -1 where darker
 */
record Patch(int[] pixels, int sign) {

  /** Over so many directions, spread evenly, extents are taken. */
  static final int DIRECTIONS = 24;

  /** Grows patches over a map, each pixel into one patch at most. */
  static final class Grower {
    private final FaceFrame frame;
    private final float[] map;
    private final double[] noise;
    private final boolean[] seen;
    private int[] queue = new int[1024];

    /**
     * Begins with nothing grown.
     *
     * @param noise spread of the map by ring
     * @param rings width of such a ring in finest rings
     */
    Grower(FaceFrame frame, float[] map, double[] noise, int rings) {
      this.frame = frame;
      this.map = map;
      this.noise = frame.byFinest(noise, rings);
      seen = new boolean[map.length];
    }

    boolean isTaken(int i) {
      return seen[i];
    }

    /** Whether a pixel differs by so many times the noise at its distance from the centre. */
    boolean isOver(int i, double times) {
      return Math.abs(map[i]) > times * noise[frame.finest(i)];
    }

    /** All pixels about one that are of its sign and so far over the noise. */
    Patch from(int start, double least) {
      int width = frame.width();
      int height = frame.height();
      int sign = map[start] > 0 ? 1 : -1;
      int n = 0;
      queue[n++] = start;
      seen[start] = true;
      for (int k = 0; k < n; k++) {
        int x = queue[k] % width;
        int y = queue[k] / width;
        for (int v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
          for (int u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
            int q = v * width + u;
            if (!seen[q] && frame.looked(q) && sign * map[q] > least * noise[frame.finest(q)]) {
              seen[q] = true;
              queue = n < queue.length ? queue : Arrays.copyOf(queue, 2 * n);
              queue[n++] = q;
            }
          }
        }
      }
      return new Patch(Arrays.copyOf(queue, n), sign);
    }
  }

  int size() {
    return pixels.length;
  }

  /** Centre, direction and extents, µm: those of a bar with the same moments. */
  record Axis(double x, double y, double cos, double sin, double length, double across) {}

  Axis axis(FaceFrame frame) {
    double x = 0;
    double y = 0;
    for (int p : pixels) {
      x += frame.xOf(p) / pixels.length;
      y += frame.yOf(p) / pixels.length;
    }
    double xx = 0;
    double yy = 0;
    double xy = 0;
    for (int p : pixels) {
      double dx = frame.xOf(p) - x;
      double dy = frame.yOf(p) - y;
      xx += dx * dx / pixels.length;
      yy += dy * dy / pixels.length;
      xy += dx * dy / pixels.length;
    }
    double turn = Math.atan2(2 * xy, xx - yy) / 2;
    double mean = (xx + yy) / 2;
    double half = Math.hypot((xx - yy) / 2, xy);
    return new Axis(
        x,
        y,
        Math.cos(turn),
        Math.sin(turn),
        Math.sqrt(12 * (mean + half)),
        Math.max(frame.um(), Math.sqrt(12 * Math.max(0, mean - half))));
  }

  /** Largest distance between two of its pixels along one of {@link #DIRECTIONS}, µm. */
  double longest(FaceFrame frame) {
    double longest = 0;
    for (int k = 0; k < DIRECTIONS; k++) {
      double c = Math.cos(Math.PI * k / DIRECTIONS);
      double s = Math.sin(Math.PI * k / DIRECTIONS);
      double low = Double.MAX_VALUE;
      double high = -Double.MAX_VALUE;
      for (int p : pixels) {
        double d = frame.xOf(p) * c + frame.yOf(p) * s;
        low = Math.min(low, d);
        high = Math.max(high, d);
      }
      longest = Math.max(longest, high - low);
    }
    return longest;
  }

  /** With the pixels of another. */
  Patch with(Patch other) {
    int[] all = Arrays.copyOf(pixels, pixels.length + other.pixels.length);
    System.arraycopy(other.pixels, 0, all, pixels.length, other.pixels.length);
    return new Patch(all, sign);
  }
}
