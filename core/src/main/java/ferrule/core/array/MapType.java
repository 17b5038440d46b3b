package ferrule.core.array;

import java.util.Locale;
import java.util.Optional;

/**
 * The maps that have a name. A, B and C are the array cables of ANSI/TIA-568.3 (maps seen with two
 * sources or more); the universal map belongs to its later methods U1 and U2 and is from memory.
 */
public enum MapType {
  /** Position i to i; an array cable of type A. */
  STRAIGHT("straight", "A"),
  /** Position i to n + 1 - i; an array cable of type B. */
  REVERSED("reversed", "B"),
  /** The two positions of each pair exchanged; an array cable of type C. */
  PAIR_FLIPPED("pair-flipped", "C"),
  /** Each pair of ports on a position and its mirror image; from memory. */
  UNIVERSAL("universal", ""),
  /** Given position by position. */
  LISTED("listed", "");

  private final String word;
  private final String letter;

  MapType(String word, String letter) {
    this.word = word;
    this.letter = letter;
  }

  /** Our word for it: "pair-flipped". */
  public String word() {
    return word;
  }

  /** "type C (pair-flipped)", "universal". */
  public String shown() {
    return letter.isEmpty() ? word : "type " + letter + " (" + word + ")";
  }

  /** Whether it can be worked out for so many positions. */
  public boolean fits(int positions) {
    return switch (this) {
      case STRAIGHT -> true;
      case REVERSED -> positions <= Keys.MOST_IN_A_ROW;
      case PAIR_FLIPPED, UNIVERSAL -> positions <= Keys.MOST_IN_A_ROW && positions % 2 == 0;
      case LISTED -> false;
    };
  }

  /**
   * The map.
   *
   * @param positions a number that it {@link #fits}
   */
  public PositionMap map(int positions) {
    return switch (this) {
      case STRAIGHT -> PositionMap.straight(positions);
      case REVERSED -> PositionMap.reversed(positions);
      case PAIR_FLIPPED -> PositionMap.pairFlipped(positions);
      case UNIVERSAL -> PositionMap.universal(positions);
      case LISTED -> throw new IllegalArgumentException("A listed map has no rule");
    };
  }

  /** The type with this word or letter, upper or lower case; never LISTED. */
  public static Optional<MapType> ofWord(String text) {
    String asked = text.toLowerCase(Locale.ROOT);
    for (MapType type : values()) {
      if (type != LISTED
          && (type.word.equals(asked)
              || (!type.letter.isEmpty() && type.letter.toLowerCase(Locale.ROOT).equals(asked)))) {
        return Optional.of(type);
      }
    }
    return Optional.empty();
  }

  /** The type of this map, the first that fits; LISTED if it has no name. */
  public static MapType of(PositionMap map) {
    for (MapType type : values()) {
      if (type.fits(map.positions()) && type.map(map.positions()).equals(map)) {
        return type;
      }
    }
    return LISTED;
  }
}
