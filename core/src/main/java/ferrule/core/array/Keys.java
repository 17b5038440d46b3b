package ferrule.core.array;

import java.util.Arrays;

/**
 * How the keys of two array plugs stand to each other in their adapter. What faces what follows
 * from the plug alone: seen from its front, key up, position 1 lies on the left.
 */
public enum Keys {
  /** Key up to key down: position i faces i. */
  OPPOSED("opposed (up to down)"),
  /** Key up to key up: position i faces n + 1 - i. */
  ALIGNED("aligned (up to up)");

  /** The most positions in one row; more stand in two rows of half as many. */
  public static final int MOST_IN_A_ROW = 16;

  private final String shown;

  Keys(String shown) {
    this.shown = shown;
  }

  /** For a reader. */
  public String shown() {
    return shown;
  }

  /** The other way. */
  public Keys turned() {
    return this == OPPOSED ? ALIGNED : OPPOSED;
  }

  /**
   * Which position of the second plug each of the first faces. Two facing plugs with keys aligned
   * are mirror images of each other, left and right exchanged; with keys opposed one is turned half
   * a round, so that in two rows the upper one faces the lower one.
   */
  public PositionMap map(int positions) {
    if (positions <= MOST_IN_A_ROW) {
      return this == OPPOSED ? PositionMap.straight(positions) : PositionMap.reversed(positions);
    }
    int row = positions / 2;
    int[] to = new int[positions];
    Arrays.setAll(
        to, i -> this == OPPOSED ? (i + row) % positions + 1 : i / row * row + row - i % row);
    return PositionMap.of(to);
  }
}
