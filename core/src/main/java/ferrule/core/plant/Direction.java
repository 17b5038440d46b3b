package ferrule.core.plant;

import java.util.Optional;

/** Which way the light goes: where the source stands first. */
public enum Direction {
  /** Source at end A. */
  A_TO_B("A-B"),
  /** Source at end B. */
  B_TO_A("B-A");

  private final String word;

  Direction(String word) {
    this.word = word;
  }

  /** As tables write it: "A-B" or "B-A". */
  public String word() {
    return word;
  }

  /** The other way. */
  public Direction reversed() {
    return this == A_TO_B ? B_TO_A : A_TO_B;
  }

  /** The direction written "A-B" or "B-A", upper or lower case; empty for anything else. */
  public static Optional<Direction> ofWord(String word) {
    for (Direction direction : values()) {
      if (direction.word.equalsIgnoreCase(word)) {
        return Optional.of(direction);
      }
    }
    return Optional.empty();
  }
}
