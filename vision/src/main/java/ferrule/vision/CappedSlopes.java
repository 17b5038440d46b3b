package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;

/**
 * How brightness changes across and down a picture, each slope capped so that a few strong features
 * cannot outvote a round: by three times the median or 0.15 of the 99 % point, whichever is larger,
 * and no slope is longer than 1.
 */
final class CappedSlopes {

  private static final double LEAST_CAP = 1e-5;

  final int width;
  final int height;

  /** To the right, row by row; 0 along the border. */
  final float[] across;

  /** Downwards. */
  final float[] down;

  CappedSlopes(Grey grey) {
    width = grey.width();
    height = grey.height();
    across = new float[width * height];
    down = new float[width * height];
    float[] p = grey.pixels();
    double[] size = new double[width * height];
    for (int y = 1; y < height - 1; y++) {
      for (int x = 1; x < width - 1; x++) {
        int i = y * width + x;
        across[i] = (p[i + 1] - p[i - 1]) / 2;
        down[i] = (p[i + width] - p[i - width]) / 2;
        size[i] = Math.sqrt(across[i] * across[i] + down[i] * down[i]);
      }
    }
    double[] ranked = size.clone();
    double cap =
        Math.max(
            Math.max(LEAST_CAP, 3 * OrderStats.quantileInPlace(ranked, 0.5)),
            0.15 * OrderStats.quantileInPlace(ranked, 0.99));
    for (int i = 0; i < size.length; i++) {
      float f = (float) (1 / Math.max(cap, size[i]));
      across[i] *= f;
      down[i] *= f;
    }
  }
}
