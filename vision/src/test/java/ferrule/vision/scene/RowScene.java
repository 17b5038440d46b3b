package ferrule.vision.scene;

import ferrule.core.face.Cladding;
import ferrule.vision.Grey;
import ferrule.vision.PictureException;
import ferrule.vision.PictureReader;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A ferrule with a row of fibres, or several rows, as rendered; fields are plain so that a test
 * changes one at a time.
 */
public final class RowScene {
  /** From fibre to fibre, µm. */
  public static final double PITCH_UM = 250;

  /** The looks, light and sensor; its place of the fibre, core and marks are not asked. */
  public final Scene look;

  public int columns = 12;
  public int rows = 1;
  public double rowPitchUm = PITCH_UM;

  /** Turn of the rows in the picture, radians. */
  public double turn;

  /** From the edge of the picture to the outermost fibres' centres, µm. */
  public double marginX = 260;

  public double marginY = 200;

  /** Width of the picture that is cut away at its right, µm. */
  public double cutUm;

  /** Places, from 0, where there is a hole and no fibre. */
  public final List<Integer> missing = new ArrayList<>();

  /** How far each fibre lies off its place, at most, µm, and the range of blur over the row, µm. */
  public double offPlaceUm = 1;

  public double leastBlurUm = 0.5;
  public double mostBlurUm = 0.8;

  /** Flaws of each place, from the centre of its fibre. */
  public final List<List<Mark>> marks = new ArrayList<>();

  /** Dirt on the ferrule: x and y from the centre of the first fibre along and across the rows. */
  public final List<Mark> between = new ArrayList<>();

  /** Begins with a look. */
  public RowScene(Scene look) {
    this.look = look;
  }

  /** How many places there are. */
  public int places() {
    return columns * rows;
  }

  /** The flaws of a place, a list to add to. */
  public List<Mark> marksOf(int place) {
    while (marks.size() <= place) {
      marks.add(new ArrayList<>());
    }
    return marks.get(place);
  }

  private double uy() {
    return look.umPerPx * look.aspect;
  }

  private double spanX() {
    return (columns - 1) * PITCH_UM * Math.cos(turn)
        + (rows - 1) * rowPitchUm * Math.abs(Math.sin(turn));
  }

  private double spanY() {
    return (columns - 1) * PITCH_UM * Math.abs(Math.sin(turn))
        + (rows - 1) * rowPitchUm * Math.cos(turn);
  }

  /** Pixels across. */
  public int width() {
    return (int) ((spanX() + 2 * marginX - cutUm) / look.umPerPx);
  }

  /** Pixels down. */
  public int height() {
    return (int) ((spanY() + 2 * marginY) / uy());
  }

  /** Centre of a place, µm from the picture's left and top. */
  private double[] centre(int place) {
    SplittableRandom r = new SplittableRandom(look.seed * 1013 + place);
    double along = place % columns * PITCH_UM + r.nextDouble(-1, 1) * offPlaceUm;
    double across = place / columns * rowPitchUm + r.nextDouble(-1, 1) * offPlaceUm;
    double x0 = marginX + (turn > 0 ? (rows - 1) * rowPitchUm * Math.sin(turn) : 0);
    double y0 = marginY + (turn < 0 ? (columns - 1) * PITCH_UM * Math.sin(-turn) : 0);
    return new double[] {
      x0 + along * Math.cos(turn) - across * Math.sin(turn),
      y0 + along * Math.sin(turn) + across * Math.cos(turn)
    };
  }

  /** The true edge of a place's cladding in the picture. */
  public Cladding truth(int place) {
    double[] c = centre(place);
    return new Cladding(
        c[0] / look.umPerPx - 0.5, c[1] / uy() - 0.5, 62.5 / look.umPerPx, 62.5 / uy());
  }

  /** Blur of a place's fibre, µm. */
  public double blurUm(int place) {
    SplittableRandom r = new SplittableRandom(look.seed * 911 + place);
    return leastBlurUm + (mostBlurUm - leastBlurUm) * r.nextDouble();
  }

  /** Grey alone, as a program would read it from the file. */
  public Grey grey() {
    try {
      return PictureReader.read(bytes()).grey();
    } catch (PictureException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The file. */
  public byte[] bytes() {
    Sensor sensor = new Sensor(look.seed * 77 + 5, look.noise, look.bits, look.colour, look.jpeg);
    return sensor.file(render(sensor));
  }

  private BufferedImage render(Sensor sensor) {
    int w = width();
    int h = height();
    float[] sharp = new float[w * h];
    float[] grain =
        Sensor.grain(new SplittableRandom(look.seed * 31 + 1), w, h, 1.0 / look.umPerPx);
    List<double[]> centres = new ArrayList<>();
    for (int k = 0; k < places(); k++) {
      centres.add(centre(k));
    }
    int[] nearest = new int[w * h];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double px = (x + 0.5) * look.umPerPx;
        double py = (y + 0.5) * uy();
        int k = nearest(centres, px, py);
        nearest[y * w + x] = k;
        sharp[y * w + x] =
            (float)
                (light(k, px - centres.get(k)[0], py - centres.get(k)[1], grain[y * w + x])
                    * dirt(px - centres.get(0)[0], py - centres.get(0)[1])
                    * lit(2.0 * x / w - 1, 2.0 * y / h - 1));
      }
    }
    return sensor.image(blurred(sharp, nearest, centres, w, h), w, h);
  }

  private static int nearest(List<double[]> centres, double x, double y) {
    int best = 0;
    double least = Double.MAX_VALUE;
    for (int k = 0; k < centres.size(); k++) {
      double dx = x - centres.get(k)[0];
      double dy = y - centres.get(k)[1];
      if (dx * dx + dy * dy < least) {
        least = dx * dx + dy * dy;
        best = k;
      }
    }
    return best;
  }

  private double light(int place, double fx, double fy, double grain) {
    double r = Math.hypot(fx, fy);
    double outside = look.ferrule * (1 + look.grain * grain);
    if (missing.contains(place)) {
      // Nothing there: plain ferrule. A hole would be round and dark, without a core.
      return outside;
    }
    double v = Scene.mix(look.cladding, look.core, (look.coreUm / 2 - r) / look.umPerPx + 0.5);
    double beyond = (r - 62.5) / look.umPerPx + 0.5;
    if (look.ringUm > 0) {
      v = Scene.mix(v, look.ring, beyond);
      beyond = (r - 62.5 - look.ringUm) / look.umPerPx + 0.5;
    }
    v = Scene.mix(v, outside, beyond);
    for (Mark mark : place < marks.size() && r < 130 ? marks.get(place) : List.<Mark>of()) {
      v *= 1 + mark.cover(fx, fy, look.umPerPx) * mark.contrast();
    }
    return v;
  }

  private double dirt(double x, double y) {
    double along = x * Math.cos(turn) + y * Math.sin(turn);
    double across = -x * Math.sin(turn) + y * Math.cos(turn);
    double v = 1;
    for (Mark mark : between) {
      v *= 1 + mark.cover(along, across, look.umPerPx) * mark.contrast();
    }
    return v;
  }

  private double lit(double nx, double ny) {
    return 1 + look.tiltX * nx + look.tiltY * ny - look.vignette * (nx * nx + ny * ny) / 2;
  }

  /** Each fibre's neighbourhood under its own blur. */
  private float[] blurred(float[] sharp, int[] nearest, List<double[]> centres, int w, int h) {
    float[] out = new float[w * h];
    for (int k = 0; k < centres.size(); k++) {
      int left = w;
      int top = h;
      int right = -1;
      int bottom = -1;
      for (int i = 0; i < nearest.length; i++) {
        if (nearest[i] == k) {
          left = Math.min(left, i % w);
          right = Math.max(right, i % w);
          top = Math.min(top, i / w);
          bottom = Math.max(bottom, i / w);
        }
      }
      if (right < 0) {
        continue;
      }
      int pad = (int) Math.ceil(4 * blurUm(k) / Math.min(look.umPerPx, uy())) + 1;
      left = Math.max(0, left - pad);
      top = Math.max(0, top - pad);
      right = Math.min(w - 1, right + pad);
      bottom = Math.min(h - 1, bottom + pad);
      int pw = right - left + 1;
      int ph = bottom - top + 1;
      float[] part = new float[pw * ph];
      for (int y = 0; y < ph; y++) {
        System.arraycopy(sharp, (top + y) * w + left, part, y * pw, pw);
      }
      part = Blur.gaussian(part, pw, ph, blurUm(k) / look.umPerPx, blurUm(k) / uy());
      for (int y = 0; y < ph; y++) {
        for (int x = 0; x < pw; x++) {
          int i = (top + y) * w + left + x;
          if (nearest[i] == k) {
            out[i] = part[y * pw + x];
          }
        }
      }
    }
    return out;
  }
}
