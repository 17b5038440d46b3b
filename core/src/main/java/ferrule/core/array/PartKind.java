package ferrule.core.array;

import java.util.Locale;
import java.util.Optional;

/** What a part of an array link is. */
public enum PartKind {
  /** A cable with an array plug at either end, installed. */
  TRUNK("trunk", true, true),
  /** A box with an array behind and single ports in front. */
  CASSETTE("cassette", true, false),
  /** A cable with an array plug at one end and single plugs at the other. */
  FAN_OUT("fan-out", true, false),
  /** A cord with an array plug at either end. */
  CORD("cord", true, true),
  /** The duplex cords of every pair of ports, all alike. */
  DUPLEX_CORD("duplex-cord", false, false);

  private final String word;
  private final boolean oneArray;
  private final boolean twoArrays;

  PartKind(String word, boolean oneArray, boolean twoArrays) {
    this.word = word;
    this.oneArray = oneArray;
    this.twoArrays = twoArrays;
  }

  /** As tables write it. */
  public String word() {
    return word;
  }

  /** Whether both its ends are arrays. */
  public boolean arrayAtBothEnds() {
    return twoArrays;
  }

  /** Whether one of its ends is an array and the other single ports. */
  public boolean arrayAtOneEnd() {
    return oneArray && !twoArrays;
  }

  /** The kind with this word, upper or lower case. */
  public static Optional<PartKind> ofWord(String word) {
    for (PartKind kind : values()) {
      if (kind.word.equals(word.toLowerCase(Locale.ROOT))) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
