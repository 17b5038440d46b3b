package ferrule.core.trust.many;

/**
 * How measured lengths follow scheduled ones: {@code measured = offset + scale * scheduled}.
 *
 * @param offsetM metres
 * @param scale above 0
 */
record LengthLine(double offsetM, double scale) {

  static final LengthLine STRAIGHT = new LengthLine(0, 1);

  /** The measured length that a scheduled one leads to, metres. */
  double of(double scheduledM) {
    return offsetM + scale * scheduledM;
  }

  /** The scheduled length that a measured one speaks of, metres. */
  double back(double measuredM) {
    return (measuredM - offsetM) / scale;
  }

  boolean usable() {
    return Double.isFinite(offsetM) && Double.isFinite(scale) && scale > 0;
  }
}
