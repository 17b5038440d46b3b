package ferrule.core.trust;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Two causes that the readings cannot tell apart, and the few further readings that would.
 *
 * @param first the cause that was taken as the likelier, in words: "a shift of zero Z2"
 * @param second the other
 * @param readings at most {@value #MOST_READINGS}, the most telling for its minutes first; empty if
 *     no reading that could be taken would tell
 * @param logRatio natural logarithm of the likelihood ratio to be expected from all of them for
 *     whichever cause is true
 */
public record Separation(
    String first, String second, List<SeparatingReading> readings, double logRatio) {

  /** No more readings than this are asked for. */
  public static final int MOST_READINGS = 4;

  /**
   * Readings are added until so large a log ratio is to be expected: twice that of odds of 100 to
   * 1, so that the threshold between the causes lies two standard deviations from either.
   */
  public static final double ENOUGH = 2 * Math.log(100);

  /** Copies the list. */
  public Separation {
    readings = List.copyOf(readings);
  }

  /** Whether the readings are expected to settle it. */
  public boolean settles() {
    return logRatio >= ENOUGH;
  }

  /** Minutes for all readings together. */
  public double minutes() {
    return readings.stream().mapToDouble(SeparatingReading::minutes).sum();
  }

  /** "the readings cannot tell a shift of zero Z2 from a high panel Rack 1". */
  public String confounded() {
    return "the readings cannot tell " + first + " from " + second;
  }

  /** One line for each reading, and one more if they may leave it open. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    for (SeparatingReading reading : readings) {
      lines.add(reading.shown(first, second));
    }
    if (!readings.isEmpty() && !settles()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "Even these may leave it open: they foretell odds of about %.0f to 1",
              Math.exp(Math.min(logRatio, 20))));
    }
    return lines;
  }
}
