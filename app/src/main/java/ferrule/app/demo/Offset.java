package ferrule.app.demo;

/**
 * How far a core stands beside the axis of its plug, in a unit that makes the square of a distance
 * a loss in dB at the shorter wavelength (loss by lateral offset goes with its square: {@link
 * ferrule.core.optics.SingleModeCoupling#offset}; for multimode fibre a fair likeness for small
 * offsets).
 *
 * @param x one coordinate
 * @param y the other
 */
record Offset(double x, double y) {

  /** In the middle. */
  static final Offset NONE = new Offset(0, 0);

  Offset minus(Offset other) {
    return new Offset(x - other.x, y - other.y);
  }

  Offset plus(Offset other) {
    return new Offset(x + other.x, y + other.y);
  }

  /** Loss against a perfect plug, dB at the shorter wavelength. */
  double db() {
    return x * x + y * y;
  }
}
