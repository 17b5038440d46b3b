package ferrule.core.plan;

/**
 * A figure of practice: what is usual, and between what it lies.
 *
 * @param low the least to reckon with
 * @param usual the figure to plan with
 * @param high the most to reckon with
 */
public record Range(double low, double usual, double high) {

  /** Nothing. */
  public static final Range NONE = new Range(0, 0, 0);

  /**
   * @throws IllegalArgumentException unless {@code low <= usual <= high}, all finite
   */
  public Range {
    if (!(low <= usual && usual <= high) || !Double.isFinite(high) || !Double.isFinite(low)) {
      throw new IllegalArgumentException(low + ", " + usual + ", " + high);
    }
  }

  /** A range with its middle as the usual figure. */
  public static Range between(double low, double high) {
    return new Range(low, (low + high) / 2, high);
  }

  /** A figure without a range. */
  public static Range of(double value) {
    return new Range(value, value, value);
  }

  /** Lows, usuals and highs added: what is slow is taken to be slow all day. */
  public Range plus(Range other) {
    return new Range(low + other.low, usual + other.usual, high + other.high);
  }

  /**
   * So many of it.
   *
   * @param count not negative
   */
  public Range times(double count) {
    return new Range(low * count, usual * count, high * count);
  }

  /** Low times low, usual times usual, high times high; neither may be negative. */
  public Range times(Range other) {
    return new Range(low * other.low, usual * other.usual, high * other.high);
  }
}
