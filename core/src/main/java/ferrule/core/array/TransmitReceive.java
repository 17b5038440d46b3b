package ferrule.core.array;

/**
 * Whether what transmits at one end of a link receives at the other.
 *
 * <p>Between single ports, equipment transmits into the odd port of each pair at either end, with
 * cords of type A-to-B (which of the two it is does not matter, only that it is the same). So a
 * pair must land on a pair with its ports exchanged. Between arrays, parallel equipment transmits
 * on the first third and receives on the last of twelve positions, on the halves of eight or
 * sixteen (from memory: confirm against IEEE 802.3); every transmitting position must land on a
 * receiving one.
 *
 * @param result what comes of it
 * @param why for a reader, one sentence without a full stop
 */
public record TransmitReceive(Result result, String why) {

  /** What comes of it. */
  public enum Result {
    /** Transmit meets receive, with like cords at both ends. */
    MEETS("meets"),
    /** Transmit meets receive if one of the two end cords exchanges them and the other does not. */
    ONE_CORD("needs-one-exchange"),
    /** No cords at the ends put it right. */
    BROKEN("broken"),
    /** It cannot be told. */
    UNKNOWN("unknown");

    private final String word;

    Result(String word) {
      this.word = word;
    }

    /** As JSON writes it. */
    public String word() {
      return word;
    }

    /** For a reader: "needs one exchange". */
    public String shown() {
      return word.replace('-', ' ');
    }
  }

  /** Works it out from the map of the parts. */
  public static TransmitReceive of(ArrayLink link) {
    return link.map()
        .map(map -> of(link, map))
        .orElseGet(() -> new TransmitReceive(Result.UNKNOWN, link.unknown()));
  }

  /** The same for another map of the link, such as the measured one. */
  public static TransmitReceive of(ArrayLink link, PositionMap map) {
    ArrayPart first = link.parts().get(0);
    ArrayPart last = link.parts().get(link.parts().size() - 1);
    if (first.a().array() != last.b().array()) {
      return new TransmitReceive(
          Result.UNKNOWN,
          "one end is an array and the other single ports: ask what plugs in where");
    }
    if (map.positions() % 2 != 0) {
      return new TransmitReceive(Result.UNKNOWN, "an odd number of positions makes no pairs");
    }
    boolean cordA = first.kind() == PartKind.DUPLEX_CORD;
    boolean cordB = last.kind() == PartKind.DUPLEX_CORD;
    return first.a().array() ? parallel(map) : duplex(map, cordA, cordB);
  }

  private static TransmitReceive duplex(PositionMap map, boolean cordA, boolean cordB) {
    int crossed = 0;
    for (int i = 1; i <= map.positions(); i += 2) {
      int one = map.at(i);
      int two = map.at(i + 1);
      if ((one - 1) / 2 != (two - 1) / 2) {
        return new TransmitReceive(
            Result.BROKEN,
            "the pair "
                + i
                + ", "
                + (i + 1)
                + " is torn apart: it arrives at "
                + one
                + " and "
                + two);
      }
      crossed += one % 2 == 0 ? 1 : 0;
    }
    int pairs = map.positions() / 2;
    if (crossed != 0 && crossed != pairs) {
      return new TransmitReceive(
          Result.BROKEN, crossed + " of " + pairs + " pairs are exchanged and the others are not");
    }
    if (crossed == pairs) {
      return new TransmitReceive(
          Result.MEETS,
          cordA && cordB
              ? "every pair arrives exchanged"
              : "every pair arrives exchanged: A-to-B cords at both ends");
    }
    if (cordA && cordB) {
      return new TransmitReceive(
          Result.BROKEN,
          "every pair arrives straight, its cords included: transmit meets transmit");
    }
    return new TransmitReceive(
        Result.ONE_CORD,
        cordA || cordB
            ? "every pair arrives straight: an A-to-A cord at the end without cords"
            : "every pair arrives straight: an A-to-A cord at one end, A-to-B at the other");
  }

  private static TransmitReceive parallel(PositionMap map) {
    int n = map.positions();
    int lanes = n == 12 ? 4 : n == 8 || n == 16 ? n / 2 : 0;
    if (lanes == 0) {
      return new TransmitReceive(
          Result.UNKNOWN, "no use of " + n + " positions by parallel equipment is on record here");
    }
    int toReceive = 0;
    int toTransmit = 0;
    for (int i = 1; i <= lanes; i++) {
      toReceive += map.at(i) > n - lanes ? 1 : 0;
      toTransmit += map.at(i) <= lanes ? 1 : 0;
    }
    if (toReceive == lanes) {
      return new TransmitReceive(
          Result.MEETS,
          "transmitting positions 1 to " + lanes + " arrive at " + (n - lanes + 1) + " to " + n);
    }
    return toTransmit == lanes
        ? new TransmitReceive(
            Result.ONE_CORD,
            "transmitting positions 1 to "
                + lanes
                + " arrive at 1 to "
                + lanes
                + ": one end cord must reverse what the other leaves straight")
        : new TransmitReceive(
            Result.BROKEN,
            "of the transmitting positions 1 to "
                + lanes
                + " only "
                + toReceive
                + " arrive at receiving ones");
  }
}
