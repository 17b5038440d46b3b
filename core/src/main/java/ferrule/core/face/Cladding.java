package ferrule.core.face;

/**
 * The edge of the cladding as fitted in a picture: an ellipse with its axes along those of the
 * picture, a circle where the pixels are square.
 *
 * @param cx centre, pixels from the centre of the leftmost pixel, to the right
 * @param cy centre, pixels from the centre of the topmost pixel, down
 * @param rxPx half the width, pixels; above 0
 * @param ryPx half the height, pixels; above 0
 */
public record Cladding(double cx, double cy, double rxPx, double ryPx) {

  /**
   * Refuses what is no ellipse.
   *
   * @throws IllegalArgumentException if a number is not finite or a half axis not above 0
   */
  public Cladding {
    if (!Double.isFinite(cx) || !Double.isFinite(cy)) {
      throw new IllegalArgumentException("centre " + cx + ", " + cy + " is not finite");
    }
    if (!(rxPx > 0 && Double.isFinite(rxPx) && ryPx > 0 && Double.isFinite(ryPx))) {
      throw new IllegalArgumentException("half axes " + rxPx + ", " + ryPx + " are not above 0");
    }
  }

  /** A circle: square pixels. */
  public static Cladding circle(double cx, double cy, double rPx) {
    return new Cladding(cx, cy, rPx, rPx);
  }

  /** Radius of the circle of equal area, pixels. */
  public double rPx() {
    return Math.sqrt(rxPx * ryPx);
  }
}
