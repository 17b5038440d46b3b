package ferrule.record.chart;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Straight lines and closed figures, built up point by point. */
public final class Shape {

  /** What to do next. */
  public enum Move {
    /** Begin at a point. */
    TO,
    /** Draw to a point. */
    LINE,
    /** Close the figure; the point is of no account. */
    CLOSE
  }

  /**
   * One step.
   *
   * @param move what to do
   * @param x CSS pixels, to the right
   * @param y CSS pixels, down
   */
  public record Step(Move move, double x, double y) {}

  private final List<Step> steps = new ArrayList<>();

  /** The steps, in order. */
  public List<Step> steps() {
    return Collections.unmodifiableList(steps);
  }

  Shape line(double x1, double y1, double x2, double y2) {
    steps.add(new Step(Move.TO, x1, y1));
    steps.add(new Step(Move.LINE, x2, y2));
    return this;
  }

  Shape diamond(double x, double y, double half) {
    steps.add(new Step(Move.TO, x - half, y));
    steps.add(new Step(Move.LINE, x, y - half));
    steps.add(new Step(Move.LINE, x + half, y));
    steps.add(new Step(Move.LINE, x, y + half));
    steps.add(new Step(Move.CLOSE, x - half, y));
    return this;
  }

  /**
   * Diagonal lines, rising to the right, that fill a box and do not leave it.
   *
   * @param step distance of the lines along the box's lower edge
   */
  Shape hatch(double x, double y, double width, double height, double step) {
    for (double from = step / 2 - height; from < width; from += step) {
      double left = Math.max(0, from);
      double right = Math.min(width, from + height);
      if (right > left) {
        line(x + left, y + height - (left - from), x + right, y + height - (right - from));
      }
    }
    return this;
  }
}
