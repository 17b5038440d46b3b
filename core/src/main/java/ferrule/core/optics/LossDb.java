package ferrule.core.optics;

/**
 * A loss in decibels; positive when light is lost.
 *
 * <p>A loss is a ratio of two powers, so losses add along a link. A negative loss is possible as a
 * reading: it is evidence of a measurement fault and is kept as it is.
 *
 * @param value dB, finite
 */
public record LossDb(double value) implements Comparable<LossDb> {

  /** No loss. */
  public static final LossDb ZERO = new LossDb(0);

  /**
   * @throws IllegalArgumentException if the value is not finite
   */
  public LossDb {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("A loss must be a finite number of dB, not " + value);
    }
  }

  /** The loss of two parts in a row. */
  public LossDb plus(LossDb other) {
    return new LossDb(value + other.value);
  }

  /** How much more this is than the other, in dB. */
  public LossDb minus(LossDb other) {
    return new LossDb(value - other.value);
  }

  /** The loss of {@code count} equal parts in a row. */
  public LossDb times(double count) {
    return new LossDb(value * count);
  }

  /** The share of the light that gets through, from 0 upwards: {@code 10^(-A/10)}. */
  public double transmittance() {
    return Math.pow(10, -value / 10);
  }

  /** The loss of the given transmittance, {@code -10 lg T}; T above 0. */
  public static LossDb ofTransmittance(double transmittance) {
    return new LossDb(-10 * Math.log10(transmittance));
  }

  @Override
  public int compareTo(LossDb other) {
    return Double.compare(value, other.value);
  }
}
