package ferrule.core.zero;

import java.util.Optional;

/**
 * How many test cords stood between source and meter when the zero was set. Always the count, never
 * a letter: letters mean different things for multimode and for single-mode.
 */
public enum Method {
  /** Launch cord only: readings hold both end connections. */
  ONE_CORD("one-cord", 1, 2, 0),
  /** Launch and receive cord: readings hold one end connection. */
  TWO_CORD("two-cord", 2, 1, 1),
  /** Launch, substitution and receive cord: readings hold neither end connection. */
  THREE_CORD("three-cord", 3, 0, 2);

  private final String word;
  private final int cords;
  private final int endConnections;
  private final int cordPairs;

  Method(String word, int cords, int endConnections, int cordPairs) {
    this.word = word;
    this.cords = cords;
    this.endConnections = endConnections;
    this.cordPairs = cordPairs;
  }

  /** As tables write it: "one-cord". */
  public String word() {
    return word;
  }

  /** Test cords in line when the zero was set. */
  public int cords() {
    return cords;
  }

  /**
   * End connections that a reading under this zero includes and that the limit must hold: 2, 1 or
   * 0.
   */
  public int endConnections() {
    return endConnections;
  }

  /** Cord-to-cord connections that the zero took out: 0, 1 or 2. */
  public int cordPairs() {
    return cordPairs;
  }

  /**
   * End faces of cords that must be inspected to set this zero: two for each cord and fibre.
   *
   * @param fibres 2 for a duplex set
   */
  public int cordFaces(int fibres) {
    return cords * 2 * fibres;
  }

  /** The method with this word, if there is one. */
  public static Optional<Method> ofWord(String word) {
    for (Method method : values()) {
      if (method.word.equalsIgnoreCase(word)) {
        return Optional.of(method);
      }
    }
    return Optional.empty();
  }
}
