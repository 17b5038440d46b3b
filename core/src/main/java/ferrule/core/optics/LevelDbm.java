package ferrule.core.optics;

/**
 * A power level in decibels over one milliwatt: {@code L = 10 lg(P / 1 mW)}.
 *
 * <p>Levels are never added to each other: the sum of two dBm values means nothing. A level minus a
 * level is a loss; a level minus a loss is a level.
 *
 * @param value dBm, finite
 */
public record LevelDbm(double value) implements Comparable<LevelDbm> {

  /**
   * @throws IllegalArgumentException if the value is not finite
   */
  public LevelDbm {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("A level must be a finite number of dBm, not " + value);
    }
  }

  /** The level of a power in milliwatts, which must be above zero. */
  public static LevelDbm ofMilliwatts(double milliwatts) {
    return new LevelDbm(10 * Math.log10(milliwatts));
  }

  /** The power in milliwatts. */
  public double milliwatts() {
    return Math.pow(10, value / 10);
  }

  /** The loss on the way from this level to {@code received}: {@code A = L_ref - L_meas}. */
  public LossDb lossTo(LevelDbm received) {
    return new LossDb(value - received.value);
  }

  /** The level left after a loss. */
  public LevelDbm after(LossDb loss) {
    return new LevelDbm(value - loss.value());
  }

  @Override
  public int compareTo(LevelDbm other) {
    return Double.compare(value, other.value);
  }
}
