package ferrule.core.isolation;

import java.util.Optional;

/**
 * One end of one cord.
 *
 * @param cord name of the cord, not empty
 * @param number 1 or 2
 */
public record EndId(String cord, int number) implements Comparable<EndId> {

  /**
   * @throws IllegalArgumentException without a name, or with another number
   */
  public EndId {
    if (cord.isEmpty() || number < 1 || number > 2) {
      throw new IllegalArgumentException("No end of a cord: " + cord + "/" + number);
    }
  }

  /** The end that is written {@code CORD/1} or {@code CORD/2}; empty if the text is no such. */
  public static Optional<EndId> parse(String text) {
    int slash = text.lastIndexOf('/');
    if (slash < 0) {
      return Optional.empty();
    }
    String cord = text.substring(0, slash).strip();
    String number = text.substring(slash + 1).strip();
    return cord.isEmpty() || !(number.equals("1") || number.equals("2"))
        ? Optional.empty()
        : Optional.of(new EndId(cord, number.charAt(0) - '0'));
  }

  @Override
  public int compareTo(EndId other) {
    int byCord = cord.compareTo(other.cord);
    return byCord != 0 ? byCord : Integer.compare(number, other.number);
  }

  /** "L1/2". */
  @Override
  public String toString() {
    return cord + "/" + number;
  }
}
