package ferrule.vision.scene;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Seeded scenes across the ranges that pictures from the field have. */
public final class Scenes {
  private static final double PITCH_HALF = RowScene.PITCH_UM / 2;

  private Scenes() {}

  /** A face without a flaw, of any look. */
  public static Scene clean(long seed) {
    SplittableRandom r = new SplittableRandom(seed);
    Scene s = new Scene();
    s.seed = seed;
    // Each trait is drawn by itself, so that no two go together.
    int[][] sizes = {{320, 240}, {640, 480}, {800, 600}, {1280, 960}, {1600, 1200}, {2592, 1944}};
    int pick = r.nextInt(20);
    int[] size = sizes[pick < 4 ? 0 : pick < 9 ? 1 : pick < 14 ? 2 : pick < 18 ? 3 : pick - 14];
    s.width = size[0];
    s.height = size[1];
    double across = r.nextDouble(0.3, 0.75); // cladding over the height
    s.umPerPx = 125 / (across * s.height);
    if (r.nextInt(5) == 0) {
      s.aspect = r.nextBoolean() ? 1.05 : 1 / 1.05;
    }
    double room = Math.min(s.width, s.height) / 2.0 - 66 / s.umPerPx;
    s.offsetX = r.nextDouble(-0.8, 0.8) * room;
    s.offsetY = r.nextDouble(-0.8, 0.8) * room;
    switch (r.nextInt(4)) {
      case 0 -> {
        // Flat and bright, light grey cladding, no ring to be seen.
        s.ferrule = r.nextDouble(0.78, 0.86);
        s.cladding = s.ferrule * r.nextDouble(0.82, 0.92);
        s.core = s.cladding * r.nextDouble(0.8, 0.93);
      }
      case 1 -> {
        s.ferrule = r.nextDouble(0.55, 0.85);
        s.cladding = r.nextDouble(0.15, 0.35);
        s.core = s.cladding * r.nextDouble(1.3, 2.2);
        s.ringUm = r.nextDouble(0.8, 2.5);
        s.ring = s.cladding * r.nextDouble(0.3, 0.7);
      }
      case 2 -> {
        s.ferrule = r.nextDouble(0.2, 0.45);
        s.cladding = r.nextDouble(0.6, 0.8);
        s.core = s.cladding * r.nextDouble(0.6, 0.85);
      }
      default -> {
        s.ferrule = r.nextDouble(0.5, 0.8);
        s.cladding = s.ferrule * r.nextDouble(0.5, 0.8);
        s.core = s.cladding * r.nextDouble(1.1, 1.3);
        s.ringUm = r.nextBoolean() ? r.nextDouble(0.8, 2.0) : 0;
        s.ring = s.cladding * 0.6;
      }
    }
    if (r.nextInt(7) == 0) {
      s.coreUm = r.nextBoolean() ? 50 : 62.5;
    }
    s.tiltX = r.nextDouble(-0.15, 0.15);
    s.tiltY = r.nextDouble(-0.15, 0.15);
    s.vignette = r.nextDouble(0, 0.12);
    s.blurUm = Math.max(0.35 * s.umPerPx, r.nextDouble(0.3, 1.05));
    s.noise = r.nextDouble(0.003, 0.012);
    s.grain = r.nextDouble(0.002, 0.015);
    s.bits = r.nextInt(6) == 0 ? 16 : 8;
    s.colour = s.bits == 8 && r.nextInt(3) == 0;
    s.jpeg = s.bits == 8 && r.nextInt(3) == 0 ? r.nextDouble(0.8, 0.95) : 0;
    return s;
  }

  /** A row of fibres without a flaw, of any look. */
  public static RowScene row(long seed, int columns, int rows) {
    SplittableRandom r = new SplittableRandom(seed * 7 + 3);
    Scene look = clean(seed);
    look.umPerPx = r.nextDouble(0.55, 0.9);
    look.aspect = r.nextInt(5) == 0 ? 1.04 : 1;
    // A ring a good deal wider than this hides the edge of the cladding; here it is grey or dark.
    look.coreUm = r.nextInt(4) == 0 ? 50 : 9;
    RowScene row = new RowScene(look);
    row.columns = columns;
    row.rows = rows;
    row.rowPitchUm = r.nextBoolean() ? 250 : 500;
    row.turn = Math.toRadians(r.nextDouble(-2.5, 2.5));
    row.marginX = r.nextDouble(90, 330);
    row.marginY = r.nextDouble(90, 260);
    row.leastBlurUm = Math.max(0.35 * look.umPerPx, r.nextDouble(0.3, 0.6));
    row.mostBlurUm = Math.min(0.95, row.leastBlurUm + r.nextDouble(0, 0.35));
    return row;
  }

  /** Dirt on the ferrule between the fibres, some of it round and as large as a fibre's core. */
  public static void dirtBetween(RowScene row) {
    SplittableRandom r = new SplittableRandom(row.look.seed + 1900);
    for (int i = 0; i < 3 * row.columns; i++) {
      double x = PITCH_HALF + 2 * PITCH_HALF * r.nextInt(row.columns) + r.nextDouble(-35, 35);
      double size = r.nextDouble(5, 40);
      row.between.add(
          new Mark.Spot(
              x,
              r.nextDouble(-80, 80),
              size,
              r.nextDouble(0.5, 1),
              r.nextDouble(0, 3),
              r.nextDouble(-0.6, 0.3)));
    }
  }

  /** Dirt over part of the edge: blobs across it within a third of the way round. */
  public static void dirtOnTheEdge(Scene s) {
    SplittableRandom r = new SplittableRandom(s.seed + 900);
    double from = r.nextDouble(0, 2 * Math.PI);
    for (int i = 0; i < 9; i++) {
      double t = from + r.nextDouble(0, 2.1);
      double q = 62.5 + r.nextDouble(-6, 6);
      s.marks.add(
          new Mark.Spot(
              q * Math.cos(t),
              q * Math.sin(t),
              r.nextDouble(6, 16),
              r.nextDouble(0.5, 1),
              r.nextDouble(0, 3),
              r.nextDouble(-0.7, -0.3)));
    }
  }

  /** Defects well apart from each other and from the edges of core and cladding. */
  public static void defects(Scene s, int count, double least, double most, double[] contrasts) {
    SplittableRandom r = new SplittableRandom(s.seed + 300);
    List<double[]> taken = new ArrayList<>();
    for (int tries = 0; tries < 2000 && taken.size() < count; tries++) {
      double size = r.nextDouble(least, most);
      double q = 58 * Math.sqrt(r.nextDouble());
      double t = r.nextDouble(0, 2 * Math.PI);
      double x = q * Math.cos(t);
      double y = q * Math.sin(t);
      boolean free = Math.abs(q - s.coreUm / 2) > size / 2 + 2.5 && q + size / 2 < 59;
      for (double[] o : taken) {
        free &= Math.hypot(x - o[0], y - o[1]) > (size + o[2]) / 2 + 7;
      }
      if (free) {
        taken.add(new double[] {x, y, size});
        s.marks.add(
            new Mark.Spot(
                x,
                y,
                size,
                r.nextDouble(0.6, 1),
                r.nextDouble(0, 3.1),
                contrasts[r.nextInt(contrasts.length)]));
      }
    }
  }

  /** One scratch, straight or curved. */
  public static Mark.Line scratch(long seed, double width, double contrast, boolean curved) {
    SplittableRandom r = new SplittableRandom(seed + 500);
    double turn = r.nextDouble(0, Math.PI);
    double aside = (r.nextBoolean() ? 1 : -1) * r.nextDouble(12, 40);
    double half = r.nextDouble(12, 35);
    double bend = curved ? 1 / r.nextDouble(40, 120) : 0;
    List<double[]> points = new ArrayList<>();
    for (int i = -12; i <= 12; i++) {
      double u = half * i / 12;
      double v = aside + bend * u * u / 2;
      points.add(
          new double[] {
            u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)
          });
    }
    return new Mark.Line(points, width, contrast);
  }
}
