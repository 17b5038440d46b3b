package ferrule.vision;

import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import java.util.Arrays;
import java.util.List;

/** Flaws that cover an area: what stands over the noise of the face at one of several scales. */
final class RegionFinder {
  private static final double REGION = 5.5;
  private static final double GROW = 2.5;

  private static final double FAINTEST = 0.02;

  /** The core's edge is modelled, and the ferrule's grain is coarser: more is asked there. */
  private static final double FAINTEST_IN_CORE = 0.03;

  private static final double CORE_UM = 6;

  private static final double FAINTEST_ON_FERRULE = 0.035;
  private static final double FERRULE_UM = 67.5;

  private final FaceFrame frame;
  private final float[] rest;
  private final int[] owner;
  private final List<Flaw> flaws;

  /**
   * Begins a search.
   *
   * @param owner number of the flaw a pixel belongs to, from 1 on; written
   * @param flaws the flaws found so far; written
   */
  RegionFinder(FaceFrame frame, float[] rest, int[] owner, List<Flaw> flaws) {
    this.frame = frame;
    this.rest = rest;
    this.owner = owner;
    this.flaws = flaws;
  }

  void find() {
    double spot = Math.max(0.7, 0.5 / frame.um());
    for (double s : new double[] {spot, 2 * spot, 4 * spot}) {
      find(s);
    }
  }

  private void find(double sigma) {
    float[] map = new Grey(frame.width(), frame.height(), rest).blurred(sigma).pixels();
    int rings = frame.rings(Math.max(1.0, 1.5 * frame.um()));
    double[] noise = MapNoise.byRing(frame, map, rings);
    Patch.Grower grower = new Patch.Grower(frame, map, noise, rings);
    for (int i = 0; i < map.length; i++) {
      float size = Math.abs(map[i]);
      if (size < FAINTEST || owner[i] != 0 || grower.isTaken(i) || !frame.looked(i)) {
        continue;
      }
      double faintest = faintest(frame.radius(i));
      if (size < faintest || !grower.isOver(i, REGION)) {
        continue;
      }
      Patch part = grower.from(i, GROW);
      double peak = level(part, map);
      // The half of its own height bounds it.
      int[] body = new int[part.size()];
      int n = 0;
      boolean taken = false;
      for (int p : part.pixels()) {
        if (part.sign() * map[p] >= peak / 2) {
          body[n++] = p;
          taken |= owner[p] != 0;
        }
      }
      if (taken || n < 2) {
        continue;
      }
      flaws.add(
          measured(new Patch(Arrays.copyOf(body, n), part.sign()), map, peak * part.sign(), sigma));
      for (int p : part.pixels()) {
        owner[p] = flaws.size();
      }
    }
  }

  /** Contrast below which nothing is a flaw, at a distance from the centre. */
  private static double faintest(double um) {
    return um < CORE_UM ? FAINTEST_IN_CORE : um < FERRULE_UM ? FAINTEST : FAINTEST_ON_FERRULE;
  }

  private static double level(Patch part, float[] map) {
    double[] v = new double[part.size()];
    for (int k = 0; k < v.length; k++) {
      v[k] = part.sign() * map[part.pixels()[k]];
    }
    Arrays.sort(v);
    return v[(int) (0.98 * (v.length - 1))];
  }

  private Flaw measured(Patch body, float[] map, double peak, double sigma) {
    double sx = 0;
    double sy = 0;
    double far = 0;
    double near = Double.MAX_VALUE;
    for (int p : body.pixels()) {
      sx += frame.xOf(p) / body.size();
      sy += frame.yOf(p) / body.size();
    }
    // Extent in each direction at half height, to a part of a pixel.
    double longest = 0;
    double shortest = Double.MAX_VALUE;
    int sign = peak > 0 ? 1 : -1;
    for (int k = 0; k < Patch.DIRECTIONS; k++) {
      double c = Math.cos(Math.PI * k / Patch.DIRECTIONS);
      double s = Math.sin(Math.PI * k / Patch.DIRECTIONS);
      double low = Double.MAX_VALUE;
      double high = -Double.MAX_VALUE;
      for (int p : body.pixels()) {
        double d = frame.xOf(p) * c + frame.yOf(p) * s;
        int step = (Math.abs(c) > Math.abs(s) ? 1 : frame.width());
        double beyondUp = share(p, step * (step == 1 ? (c > 0 ? 1 : -1) : 1), map, peak, sign);
        double beyondDown = share(p, -step * (step == 1 ? (c > 0 ? 1 : -1) : 1), map, peak, sign);
        double along = frame.um() * (step == 1 ? Math.abs(c) : Math.abs(s));
        low = Math.min(low, d - beyondDown * along);
        high = Math.max(high, d + beyondUp * along);
      }
      longest = Math.max(longest, high - low);
      shortest = Math.min(shortest, high - low);
    }
    double blur = Math.hypot(frame.blurPx(), sigma) * frame.um();
    double length = deblurred(Math.max(longest, frame.um()), blur);
    double across = Math.min(length, deblurred(Math.max(shortest, frame.um()), blur));
    for (int p : body.pixels()) {
      far = Math.max(far, frame.radius(p));
      near = Math.min(near, frame.radius(p));
    }
    double trim = Math.max(0, (longest - length) / 2);
    near = Math.max(0, near + trim);
    far = Math.max(near, far - trim);
    double unsure = Math.hypot(0.25, 0.04 * length) + Math.max(0, blur - length / 2.355);
    double area = body.size() * frame.um() * frame.um();
    double thin = area / longest;
    boolean line = longest > 9 && longest > 4.5 * thin && shortest < 0.8 * longest;
    if (line) {
      double w = deblurred(thin, blur);
      return new Flaw(
          FlawKind.SCRATCH, sx, sy, Math.max(length, w), w, 0.3 + blur / 3, peak, near, far);
    }
    return new Flaw(FlawKind.DEFECT, sx, sy, length, across, unsure, peak, near, far);
  }

  /** How far beyond a pixel the half height is met on the way to its neighbour, 0 to 1. */
  private double share(int p, int step, float[] map, double peak, int sign) {
    int q = p + step;
    if (q < 0 || q >= map.length) {
      return 0.5;
    }
    double here = sign * map[p];
    double there = sign * map[q];
    double half = Math.abs(peak) / 2;
    return there >= half || here <= there ? 0 : Math.min(1, (here - half) / (here - there));
  }

  /**
   * Diameter of a disk that, blurred by a Gaussian, is as wide at half height as seen. A disk of
   * diameter D on its own has 1 - exp(-D^2/8s^2) of its contrast at its centre and, to 3 %, a width
   * of (D^4 + (2.355 s)^4)^(1/4) at half height.
   */
  static double deblurred(double seen, double sigma) {
    double least = 2.355 * sigma;
    double power = Math.pow(seen, 4) - Math.pow(least, 4);
    return Math.max(0.4 * Math.min(seen, least), power <= 0 ? 0 : Math.pow(power, 0.25));
  }
}
