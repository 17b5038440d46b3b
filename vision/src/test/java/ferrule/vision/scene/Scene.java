package ferrule.vision.scene;

import ferrule.core.face.Cladding;
import ferrule.vision.Grey;
import ferrule.vision.Picture;
import ferrule.vision.PictureException;
import ferrule.vision.PictureReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;

/** What is rendered; fields are plain so that a test changes one at a time. */
public final class Scene {
  public long seed;
  public int width = 640;
  public int height = 480;

  /** µm/px along x. */
  public double umPerPx = 0.6;

  /** Scale along y over that along x. */
  public double aspect = 1;

  public double offsetX;
  public double offsetY;
  public double cladding = 0.5;
  public double ferrule = 0.75;
  public double core = 0.35;
  public double coreUm = 9;

  /** Width of the adhesive ring, µm, and its level; 0: none to be seen. */
  public double ringUm;

  public double ring = 0.2;

  /** Relative change of the light over half the picture's width, and its fall to the corners. */
  public double tiltX;

  public double tiltY;
  public double vignette;

  /** Standard deviation of the point spread, µm. */
  public double blurUm = 0.6;

  /** Standard deviation of the noise at full white. */
  public double noise = 0.006;

  /** Standard deviation of the ferrule's grain. */
  public double grain = 0.01;

  public int bits = 8;
  public boolean colour;

  /** JPEG quality, 0 for none. */
  public double jpeg;

  public final List<Mark> marks = new ArrayList<>();

  /** The true edge of the cladding in the picture. */
  public Cladding truth() {
    return new Cladding(
        (width - 1) / 2.0 + offsetX,
        (height - 1) / 2.0 + offsetY,
        62.5 / umPerPx,
        62.5 / (umPerPx * aspect));
  }

  /** Whether the whole of a flaw lies in the picture. */
  public boolean shows(Mark mark) {
    if (!(mark instanceof Mark.Spot spot)) {
      return true;
    }
    Cladding c = truth();
    double x = c.cx() + spot.x() / umPerPx;
    double y = c.cy() + spot.y() / (umPerPx * aspect);
    double half = spot.size() / 2 / Math.min(umPerPx, umPerPx * aspect);
    return x > half && y > half && x < width - 1 - half && y < height - 1 - half;
  }

  /** The picture as a program would read it from a file. */
  public Picture picture() {
    try {
      return PictureReader.read(bytes());
    } catch (PictureException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The file: JPEG if asked, else PNG. */
  public byte[] bytes() {
    BufferedImage image = render();
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

  private BufferedImage render() {
    float[] light = new float[width * height];
    Cladding c = truth();
    SplittableRandom grainRandom = new SplittableRandom(seed * 31 + 1);
    float[] grainField = grainField(grainRandom);
    double uy = umPerPx * aspect;
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double fx = (x - c.cx()) * umPerPx;
        double fy = (y - c.cy()) * uy;
        double r = Math.hypot(fx, fy);
        double outside = ferrule * (1 + grain * grainField[y * width + x]);
        double v = mix(cladding, core, (coreUm / 2 - r) / umPerPx + 0.5);
        double beyond = (r - 62.5) / umPerPx + 0.5;
        if (ringUm > 0) {
          v = mix(v, ring, beyond);
          beyond = (r - 62.5 - ringUm) / umPerPx + 0.5;
        }
        v = mix(v, outside, beyond);
        for (Mark mark : marks) {
          double share = mark.cover(fx, fy, umPerPx);
          if (share > 0) {
            v *= 1 + share * mark.contrast();
          }
        }
        double nx = 2.0 * x / width - 1;
        double ny = 2.0 * y / width - (double) height / width;
        light[y * width + x] =
            (float) (v * (1 + tiltX * nx + tiltY * ny - vignette * (nx * nx + ny * ny)));
      }
    }
    light = Blur.gaussian(light, width, height, blurUm / umPerPx, blurUm / uy);
    Random random = new Random(seed * 77 + 5);
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

  private int level(double v, Random random, int full) {
    double noisy = v + noise * Math.sqrt(Math.max(v, 0.05)) * random.nextGaussian();
    return (int) Math.round(Math.min(1, Math.max(0, noisy)) * full);
  }

  private static double mix(double from, double to, double share) {
    double s = Math.min(1, Math.max(0, share));
    return from + s * (to - from);
  }

  private float[] grainField(SplittableRandom random) {
    float[] field = new float[width * height];
    Random gauss = new Random(random.nextLong());
    for (int i = 0; i < field.length; i++) {
      field[i] = (float) gauss.nextGaussian();
    }
    double s = 1.0 / umPerPx;
    field = Blur.gaussian(field, width, height, s, s);
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

  /** Grey alone. */
  public Grey grey() {
    return picture().grey();
  }
}
