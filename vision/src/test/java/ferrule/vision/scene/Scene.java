package ferrule.vision.scene;

import ferrule.core.face.Cladding;
import ferrule.vision.Grey;
import ferrule.vision.Picture;
import ferrule.vision.PictureException;
import ferrule.vision.PictureReader;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

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
    return sensor().file(render());
  }

  private BufferedImage render() {
    float[] light = new float[width * height];
    Cladding c = truth();
    SplittableRandom grainRandom = new SplittableRandom(seed * 31 + 1);
    float[] grainField = Sensor.grain(grainRandom, width, height, 1.0 / umPerPx);
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
    return sensor().image(light, width, height);
  }

  private Sensor sensor() {
    return new Sensor(seed * 77 + 5, noise, bits, colour, jpeg);
  }

  static double mix(double from, double to, double share) {
    double s = Math.min(1, Math.max(0, share));
    return from + s * (to - from);
  }

  /** Grey alone. */
  public Grey grey() {
    return picture().grey();
  }
}
