package ferrule.core.array;

/**
 * A part of an array link, as it stands there.
 *
 * @param link the link it belongs to
 * @param order its place counted from end A; the parts of a link stand in rising order
 * @param part what is written on it; the same name in several links is the same thing
 * @param kind what it is
 * @param written its map as written: from ports to array for cassettes and fan-outs, from end A to
 *     end B for all others
 * @param a its end towards A
 * @param b its end towards B
 */
public record ArrayPart(
    String link, int order, String part, PartKind kind, PositionMap written, PartEnd a, PartEnd b) {

  /** Most parts in one link. */
  public static final int MOST_ORDER = 99;

  /** Most positions of a part. */
  public static final int MOST_POSITIONS = 32;

  /**
   * @throws IllegalArgumentException if the ends are not those of its kind
   */
  public ArrayPart {
    boolean fits =
        kind.arrayAtBothEnds()
            ? a.array() && b.array()
            : kind.arrayAtOneEnd() ? a.array() != b.array() : !a.array() && !b.array();
    if (!fits) {
      throw new IllegalArgumentException("the ends of a " + kind.word());
    }
  }

  /** The name of its map; LISTED if it has none. */
  public MapType type() {
    return MapType.of(written);
  }

  /** How many positions. */
  public int positions() {
    return written.positions();
  }

  /** Where light from end A arrives at end B. */
  public PositionMap map() {
    return turn(written);
  }

  /** Its map if it were of this type instead. */
  public PositionMap mapAs(MapType other) {
    return turn(other.map(positions()));
  }

  private PositionMap turn(PositionMap ofPart) {
    return kind.arrayAtOneEnd() && a.array() ? ofPart.inverse() : ofPart;
  }

  /** "trunk T1". */
  public String named() {
    return kind.word() + " " + part;
  }

  /** Its map for a reader: "type B (reversed)", "A-to-A", or the list. */
  public String typeShown() {
    if (kind == PartKind.DUPLEX_CORD) {
      return type() == MapType.STRAIGHT ? DUPLEX_CROSSED : DUPLEX_STRAIGHT;
    }
    return kind.arrayAtBothEnds() && positions() <= Keys.MOST_IN_A_ROW
        ? type().shown()
        : type().word();
  }

  /** A duplex cord as cords usually are: what transmits at one end receives at the other. */
  public static final String DUPLEX_CROSSED = "A-to-B";

  /** A duplex cord whose two plugs are exchanged at one end. */
  public static final String DUPLEX_STRAIGHT = "A-to-A";
}
