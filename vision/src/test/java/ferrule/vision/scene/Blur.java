package ferrule.vision.scene;

/** The renderer's own Gaussian blur, apart from the one under test. */
final class Blur {
  private Blur() {}

  static float[] gaussian(float[] in, int w, int h, double sx, double sy) {
    float[] across = new float[in.length];
    double[] kx = kernel(sx);
    int rx = kx.length / 2;
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double v = 0;
        for (int k = -rx; k <= rx; k++) {
          v += kx[k + rx] * in[y * w + Math.min(Math.max(x + k, 0), w - 1)];
        }
        across[y * w + x] = (float) v;
      }
    }
    float[] out = new float[in.length];
    double[] ky = kernel(sy);
    int ry = ky.length / 2;
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double v = 0;
        for (int k = -ry; k <= ry; k++) {
          v += ky[k + ry] * across[Math.min(Math.max(y + k, 0), h - 1) * w + x];
        }
        out[y * w + x] = (float) v;
      }
    }
    return out;
  }

  private static double[] kernel(double sigma) {
    int reach = (int) Math.ceil(4 * sigma);
    double[] k = new double[2 * reach + 1];
    double sum = 0;
    for (int i = -reach; i <= reach; i++) {
      k[i + reach] = sigma <= 0 ? 1 : Math.exp(-0.5 * i * i / (sigma * sigma));
      sum += k[i + reach];
    }
    for (int i = 0; i < k.length; i++) {
      k[i] /= sum;
    }
    return k;
  }
}
