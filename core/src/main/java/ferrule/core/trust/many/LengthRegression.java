package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * Robust lines through measured on scheduled length, one point a distinct scheduled length (what is
 * wrong with one cable or one rounded figure of the schedule is one thing, however many fibres show
 * it).
 *
 * <p>The lines minimise {@code sum min(z^2, 25)}, {@code z} being the residual over its standard
 * deviation: {@link LengthScatter}, scaled by the median residual, never below three tenths of the
 * usual, and never below the usual with fewer than eight points. Solved by least squares repeated
 * over the points within five deviations, from the best of three plain starts.
 */
final class LengthRegression {

  /** Least and most that honest fibre follows its cable by, so that nothing rings. */
  static final double LEAST_TAKE_UP = 0.99;

  /** See {@link #LEAST_TAKE_UP}. */
  static final double MOST_TAKE_UP = 1.018;

  private static final double USUAL_TAKE_UP = 1.005;
  private static final double TAKE_UP_SD = 0.006;
  private static final double CAP = 25;

  /** A start farther from the schedule must gather so much more of the links. */
  private static final double CLEARLY = 0.1;

  private static final double LEAST_SHARE = 0.6;
  private static final int ENOUGH_FOR_SCATTER = 8;
  private static final double LEAST_SCATTER = 0.3;
  private static final int ROUNDS = 20;

  private final double[] linkX;
  private final double[] linkY;
  private final double[] x;
  private final double[] y;
  private final int size;
  private final double stepM;
  private final LengthLine start;
  private final LengthLine full;
  private final LengthScatter scatter;

  /**
   * @param scheduledM by link
   * @param measuredM by link, NaN where none
   */
  LengthRegression(double[] scheduledM, double[] measuredM) {
    int known = 0;
    double[] xs = new double[scheduledM.length];
    double[] ys = new double[scheduledM.length];
    for (int i = 0; i < xs.length; i++) {
      if (!Double.isNaN(measuredM[i]) && !Double.isNaN(scheduledM[i])) {
        xs[known] = scheduledM[i];
        ys[known++] = measuredM[i];
      }
    }
    int[] order = Ranks.ascending(Arrays.copyOf(xs, known));
    this.linkX = new double[known];
    this.linkY = new double[known];
    for (int i = 0; i < known; i++) {
      linkX[i] = xs[order[i]];
      linkY[i] = ys[order[i]];
    }
    this.x = new double[known];
    this.y = new double[known];
    this.size = gather();
    this.stepM = step();
    this.start = best();
    LengthLine first = solve(Shape.FULL, start, scatter(start));
    this.scatter = scatter(first);
    this.full = solve(Shape.FULL, first, scatter);
  }

  private enum Shape {
    FULL,
    SCALE,
    OFFSET
  }

  private int gather() {
    int points = 0;
    double[] same = new double[linkX.length];
    for (int i = 0; i < linkX.length; ) {
      int end = i;
      while (end < linkX.length && linkX[end] == linkX[i]) {
        same[end - i] = linkY[end];
        end++;
      }
      x[points] = linkX[i];
      y[points++] = end - i == 1 ? same[0] : Ranks.median(same, end - i);
      i = end;
    }
    return points;
  }

  /** The step to which all scheduled lengths are rounded, metres; 0 if finer than half a metre. */
  private double step() {
    for (double step : new double[] {10, 5, 2, 1, 0.5}) {
      int fits = 0;
      for (int i = 0; i < size; i++) {
        fits += Math.abs(x[i] / step - Math.rint(x[i] / step)) < 1e-6 ? 1 : 0;
      }
      if (fits == size) {
        return step;
      }
    }
    return 0;
  }

  private LengthLine best() {
    LengthLine best = LengthLine.STRAIGHT;
    double share = share(best);
    for (LengthLine line : new LengthLine[] {ratio(), offset(), theilSen()}) {
      if (line.usable() && share(line) > share + CLEARLY) {
        best = line;
        share = share(line);
      }
    }
    return centred(best);
  }

  /** Turned so that the points along a line lie on both sides of it. */
  private LengthLine centred(LengthLine line) {
    double[] parts = new double[size];
    int inside = 0;
    for (int i = 0; i < size; i++) {
      if (along(line, x[i], y[i])) {
        parts[inside++] = gapM(line, i) / x[i];
      }
    }
    LengthLine turned =
        new LengthLine(line.offsetM(), line.scale() * (1 + Ranks.median(parts, inside)));
    return turned.usable() && share(turned) >= share(line) ? turned : line;
  }

  private boolean along(LengthLine line, double scheduledM, double measuredM) {
    return Math.abs(line.back(measuredM) - scheduledM) <= 1 + 0.01 * scheduledM + stepM / 4;
  }

  /** Whether a link lies along the best of the plain starts. */
  boolean isAlong(double scheduledM, double measuredM) {
    return along(start, scheduledM, measuredM);
  }

  private LengthLine ratio() {
    double[] ratios = new double[size];
    for (int i = 0; i < size; i++) {
      ratios[i] = y[i] / x[i];
    }
    return new LengthLine(0, Ranks.median(ratios, size));
  }

  private LengthLine offset() {
    return new LengthLine(intercept(USUAL_TAKE_UP), USUAL_TAKE_UP);
  }

  private double intercept(double slope) {
    double[] rest = new double[size];
    for (int i = 0; i < size; i++) {
      rest[i] = y[i] - slope * x[i];
    }
    return Ranks.median(rest, size);
  }

  /** Theil's incomplete method: every point is paired with the one half the points further on. */
  private LengthLine theilSen() {
    int half = size / 2;
    double[] slopes = new double[half];
    for (int i = 0; i < half; i++) {
      int far = i + size - half;
      slopes[i] = (y[far] - y[i]) / (x[far] - x[i]);
    }
    double slope = Ranks.median(slopes, half);
    return new LengthLine(intercept(slope), slope);
  }

  /** Share of the links within 1 m + 1 % of a line and a quarter of the schedule's step, 0 to 1. */
  double share(LengthLine line) {
    int inside = 0;
    for (int i = 0; i < linkX.length; i++) {
      inside += along(line, linkX[i], linkY[i]) ? 1 : 0;
    }
    return linkX.length == 0 ? 0 : (double) inside / linkX.length;
  }

  /** The share that the best of the plain starts reaches, 0 to 1. */
  double bestShare() {
    return share(start);
  }

  /** The best of the plain starts, centred. */
  LengthLine start() {
    return start;
  }

  /** Whether most links lie along a line. */
  boolean fits(LengthLine line) {
    return share(line) >= LEAST_SHARE;
  }

  private double weight(LengthLine line, LengthScatter with, int i) {
    double sd = with.sdM(x[i]) * line.scale();
    return 1 / (sd * sd);
  }

  private double gapM(LengthLine line, int i) {
    return line.back(y[i]) - x[i];
  }

  private LengthScatter scatter(LengthLine line) {
    double[] gaps = new double[size];
    for (int i = 0; i < size; i++) {
      gaps[i] = gapM(line, i);
    }
    return LengthScatter.usual(stepM)
        .scaledTo(x, gaps, size, 0.5, 0.6745, size < ENOUGH_FOR_SCATTER ? 1 : LEAST_SCATTER);
  }

  private LengthLine solve(Shape shape, LengthLine from, LengthScatter with) {
    LengthLine line = from;
    for (int round = 0; round < ROUNDS; round++) {
      LengthLine next = step(shape, line, with);
      if (!next.usable() || next.equals(line)) {
        return line;
      }
      line = next;
    }
    return line;
  }

  private LengthLine step(Shape shape, LengthLine line, LengthScatter with) {
    double n = 0;
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    for (int i = 0; i < size; i++) {
      double z = gapM(line, i) / with.sdM(x[i]);
      if (z * z < CAP) {
        double weight = weight(line, with, i);
        n += weight;
        sx += weight * x[i];
        sy += weight * y[i];
        sxx += weight * x[i] * x[i];
        sxy += weight * x[i] * y[i];
      }
    }
    if (shape == Shape.SCALE) {
      return new LengthLine(0, sxy / sxx);
    }
    if (shape == Shape.OFFSET) {
      sxx += 1 / (TAKE_UP_SD * TAKE_UP_SD);
      sxy += USUAL_TAKE_UP / (TAKE_UP_SD * TAKE_UP_SD);
    }
    double determinant = n * sxx - sx * sx;
    if (!(determinant > 1e-9 * n * sxx)) {
      return line;
    }
    return new LengthLine((sxx * sy - sx * sxy) / determinant, (n * sxy - sx * sy) / determinant);
  }

  private double misfit(LengthLine line) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      double z = gapM(line, i) / scatter.sdM(x[i]);
      sum += Math.min(CAP, z * z);
    }
    return sum;
  }

  /** A line, and twice the negative logarithm of its likelihood. */
  record Fitted(LengthLine line, double misfit) {}

  /** Any line. */
  Fitted full() {
    return new Fitted(full, misfit(full));
  }

  /** Through the origin: one ratio. */
  Fitted scale() {
    LengthLine line =
        better(solve(Shape.SCALE, ratio(), scatter), solve(Shape.SCALE, start, scatter));
    return new Fitted(line, misfit(line));
  }

  /** One constant beside an honest take-up, which is held near its usual 1.005 (sd 0.006). */
  Fitted offsetBesideTakeUp() {
    LengthLine line = solve(Shape.OFFSET, offset(), scatter);
    double pull = (line.scale() - USUAL_TAKE_UP) / TAKE_UP_SD;
    return new Fitted(line, misfit(line) + pull * pull);
  }

  /** The best that take-up alone can do. */
  Fitted honest() {
    LengthLine best = LengthLine.STRAIGHT;
    for (LengthLine from : new LengthLine[] {scale().line(), new LengthLine(0, USUAL_TAKE_UP)}) {
      double free = solve(Shape.SCALE, from, scatter).scale();
      best = better(best, new LengthLine(0, Math.min(MOST_TAKE_UP, Math.max(LEAST_TAKE_UP, free))));
    }
    return new Fitted(best, misfit(best));
  }

  private LengthLine better(LengthLine first, LengthLine second) {
    return misfit(second) < misfit(first) ? second : first;
  }

  /** Number of links. */
  int links() {
    return linkX.length;
  }

  /** Number of distinct scheduled lengths. */
  int points() {
    return size;
  }

  /** The step to which the schedule is rounded, metres. */
  double stepM() {
    return stepM;
  }

  /** Shortest scheduled length, metres; there must be one. */
  double shortestM() {
    return x[0];
  }

  /** Longest scheduled length, metres; there must be one. */
  double longestM() {
    return x[size - 1];
  }

  /** Scatter about a line, metres: 1.4826 times the median distance of the points. */
  double scatterM(LengthLine line) {
    double[] sizes = new double[size];
    for (int i = 0; i < size; i++) {
      sizes[i] = Math.abs(gapM(line, i));
    }
    return OrderStats.SD_OVER_MAD * Ranks.median(sizes, size);
  }

  /** Standard deviation of the ratio of a line through the origin. */
  double scaleSd(LengthLine line) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      sum += weight(line, scatter, i) * x[i] * x[i];
    }
    return 1 / Math.sqrt(sum);
  }

  /** Standard deviation of the constant of a line beside take-up, metres. */
  double offsetSd(LengthLine line) {
    double n = 0;
    double sx = 0;
    double sxx = 1 / (TAKE_UP_SD * TAKE_UP_SD);
    for (int i = 0; i < size; i++) {
      double weight = weight(line, scatter, i);
      n += weight;
      sx += weight * x[i];
      sxx += weight * x[i] * x[i];
    }
    return Math.sqrt(sxx / (n * sxx - sx * sx));
  }
}
