package ferrule.vision.scene;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Flaws as they decide a grade: astride the boundary of a zone, one more than a count allows, in
 * the core, a scratch across it. What is planted does not hang on how the face looks.
 */
public final class Plants {
  /** Outer edges of the zones of a single-mode PC face, µm from the centre (edition 2015). */
  private static final double[] ZONES = {12.5, 57.5, 67.5, 125};

  private Plants() {}

  /** What is planted. */
  public enum Sort {
    NOTHING,
    ASTRIDE_A_BOUNDARY,
    AS_MANY_AS_ALLOWED,
    ONE_TOO_MANY,
    IN_THE_CORE,
    IN_THE_CLADDING,
    ON_THE_FERRULE,
    SCRATCH_ASIDE,
    SCRATCH_THROUGH_THE_CORE,
    WIDE_SCRATCH
  }

  /** Plants one sort of flaws; contrasts are {@code least} to {@code most} of the local level. */
  public static void plant(Scene s, Sort sort, SplittableRandom r, double least, double most) {
    switch (sort) {
      case NOTHING -> {}
      case ASTRIDE_A_BOUNDARY -> {
        double size = r.nextDouble(3, 9);
        // By at least a fifth of its size and half a micrometre on either side.
        double over = Math.max(0.5, 0.2 * size);
        double at = ZONES[r.nextInt(3)] + r.nextDouble(-1, 1) * Math.max(0, size / 2 - over);
        spot(s, at, size, 1, r, least, most);
      }
      case AS_MANY_AS_ALLOWED -> several(s, 5, 15, 55, 2.5, 4, r, least, most);
      case ONE_TOO_MANY -> several(s, 6, 15, 55, 2.5, 4, r, least, most);
      case IN_THE_CORE -> spot(s, r.nextDouble(0, 9), r.nextDouble(3, 6), 0.7, r, least, most);
      case IN_THE_CLADDING -> several(s, 1 + r.nextInt(4), 16, 53, 2.5, 10, r, least, most);
      case ON_THE_FERRULE -> several(s, 1 + r.nextInt(3), 72, 100, 3, 20, r, least, most);
      case SCRATCH_ASIDE ->
          scratch(s, r.nextDouble(16, 45), r.nextDouble(0.5, 1.5), r, least, most);
      case SCRATCH_THROUGH_THE_CORE ->
          scratch(s, r.nextDouble(0, 9), r.nextDouble(0.5, 1.5), r, least, most);
      case WIDE_SCRATCH -> scratch(s, r.nextDouble(18, 40), r.nextDouble(3.8, 6), r, least, most);
    }
  }

  private static void several(
      Scene s,
      int count,
      double from,
      double to,
      double least,
      double most,
      SplittableRandom r,
      double faint,
      double strong) {
    List<double[]> taken = new ArrayList<>();
    for (int tries = 0; tries < 5000 && taken.size() < count; tries++) {
      double size = r.nextDouble(least, most);
      double q = r.nextDouble(from + size / 2, to - size / 2);
      double t = r.nextDouble(0, 2 * Math.PI);
      double x = q * Math.cos(t);
      double y = q * Math.sin(t);
      if (taken.stream().allMatch(o -> Math.hypot(x - o[0], y - o[1]) > (size + o[2]) / 2 + 5)) {
        taken.add(new double[] {x, y, size});
        s.marks.add(
            new Mark.Spot(
                x, y, size, r.nextDouble(0.7, 1), r.nextDouble(0, 3), contrast(r, faint, strong)));
      }
    }
  }

  private static void spot(
      Scene s, double q, double size, double flat, SplittableRandom r, double least, double most) {
    double t = r.nextDouble(0, 2 * Math.PI);
    s.marks.add(
        new Mark.Spot(
            q * Math.cos(t),
            q * Math.sin(t),
            size,
            flat,
            r.nextDouble(0, 3),
            contrast(r, least, most)));
  }

  private static void scratch(
      Scene s, double aside, double width, SplittableRandom r, double least, double most) {
    double turn = r.nextDouble(0, Math.PI);
    double half = r.nextDouble(14, 35);
    double bend = r.nextBoolean() ? 0 : 1 / r.nextDouble(60, 150);
    List<double[]> points = new ArrayList<>();
    for (int i = -12; i <= 12; i++) {
      double u = half * i / 12;
      double v = aside + bend * u * u / 2;
      points.add(
          new double[] {
            u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)
          });
    }
    s.marks.add(new Mark.Line(points, width, contrast(r, least, most)));
  }

  private static double contrast(SplittableRandom r, double least, double most) {
    return (r.nextInt(3) == 0 ? 1 : -1) * r.nextDouble(least, most);
  }
}
