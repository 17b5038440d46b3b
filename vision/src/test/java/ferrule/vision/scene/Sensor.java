package ferrule.vision.scene;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Random;
import java.util.SplittableRandom;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;

/**
 * What stands between the light and a file: noise, steps and compression.
 *
 * @param seed of the noise
 * @param noise standard deviation at full white
 * @param bits 8 or 16
 * @param colour whether the light is tinted; with 8 bits only
 * @param jpeg quality, 0 for none
 */
record Sensor(long seed, double noise, int bits, boolean colour, double jpeg) {

  /** The picture of a light field. */
  BufferedImage image(float[] light, int width, int height) {
    Random random = new Random(seed);
    int full = (1 << bits) - 1;
    int type =
        bits == 16
            ? BufferedImage.TYPE_USHORT_GRAY
            : colour ? BufferedImage.TYPE_INT_RGB : BufferedImage.TYPE_BYTE_GRAY;
    BufferedImage image = new BufferedImage(width, height, type);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double v = light[y * width + x];
        if (colour && bits == 8) {
          int rgb = 0;
          double[] tint = {1.0, 0.93, 0.72};
          for (double t : tint) {
            rgb = rgb << 8 | level(v * t, random, 255);
          }
          image.setRGB(x, y, rgb);
        } else {
          image.getRaster().setSample(x, y, 0, level(v, random, full));
        }
      }
    }
    return image;
  }

  /** The file: JPEG if asked, else PNG. */
  byte[] file(BufferedImage image) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      if (jpeg > 0) {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ImageWriteParam how = writer.getDefaultWriteParam();
        how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        how.setCompressionQuality((float) jpeg);
        try (var stream = ImageIO.createImageOutputStream(out)) {
          writer.setOutput(stream);
          writer.write(null, new IIOImage(image, null, null), how);
        }
        writer.dispose();
      } else {
        ImageIO.write(image, "png", out);
      }
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private int level(double v, Random random, int full) {
    double noisy = v + noise * Math.sqrt(Math.max(v, 0.05)) * random.nextGaussian();
    return (int) Math.round(Math.min(1, Math.max(0, noisy)) * full);
  }

  /** Grain of a ground: unit spread, smooth over {@code sigma} pixels. */
  static float[] grain(SplittableRandom random, int width, int height, double sigma) {
    float[] field = new float[width * height];
    Random gauss = new Random(random.nextLong());
    for (int i = 0; i < field.length; i++) {
      field[i] = (float) gauss.nextGaussian();
    }
    field = Blur.gaussian(field, width, height, sigma, sigma);
    double sum = 0;
    for (float f : field) {
      sum += f * f;
    }
    float scale = (float) (1 / Math.sqrt(sum / field.length));
    for (int i = 0; i < field.length; i++) {
      field[i] *= scale;
    }
    return field;
  }
}
