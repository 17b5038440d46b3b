package ferrule.core.plan;

import java.util.Locale;

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

  /** As minutes of a crew: "5 min", "45 min (30 to 55)", "6.0 hours (4.0 to 8.0)". */
  public String timeShown() {
    if (high >= 60) {
      return String.format(
          Locale.ROOT, "%.1f hours (%.1f to %.1f)", usual / 60, low / 60, high / 60);
    }
    String one = Math.round(usual) + " min";
    return low == high ? one : one + " (" + Math.round(low) + " to " + Math.round(high) + ")";
  }

  /** As a count: "1", "2 to 3". */
  public String countShown() {
    String least = Long.toString(Math.round(low));
    return low == high ? least : least + " to " + Math.round(high);
  }

  /** Low times low, usual times usual, high times high; neither may be negative. */
  public Range times(Range other) {
    return new Range(low * other.low, usual * other.usual, high * other.high);
  }
}
