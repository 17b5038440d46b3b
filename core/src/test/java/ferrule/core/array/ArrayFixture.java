package ferrule.core.array;

import ferrule.core.array.PartEnd.Key;
import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Invented array links. */
public final class ArrayFixture {

  private ArrayFixture() {}

  /** An array plug with a key and nothing else on record. */
  public static PartEnd plug(Key key) {
    return new PartEnd(true, Optional.empty(), Optional.of(key), Optional.empty());
  }

  /** An array plug with everything on record. */
  public static PartEnd plug(Key key, Pins pins, Polish polish) {
    return new PartEnd(true, Optional.of(pins), Optional.of(key), Optional.of(polish));
  }

  /** Duplex cords. */
  public static ArrayPart cords(String link, int order, String map) {
    MapType type = map.equals(ArrayPart.DUPLEX_CROSSED) ? MapType.STRAIGHT : MapType.PAIR_FLIPPED;
    return new ArrayPart(
        link, order, "D" + order, PartKind.DUPLEX_CORD, type.map(12), PartEnd.PORTS, PartEnd.PORTS);
  }

  /** A cassette with its array towards B or towards A. */
  public static ArrayPart cassette(
      String link, int order, String name, MapType type, boolean arrayAtB) {
    PartEnd array = plug(Key.UP);
    return new ArrayPart(
        link,
        order,
        name,
        PartKind.CASSETTE,
        type.map(12),
        arrayAtB ? PartEnd.PORTS : array,
        arrayAtB ? array : PartEnd.PORTS);
  }

  /** A trunk whose keys stand to cassettes as said. */
  public static ArrayPart trunk(String link, int order, String name, PositionMap map, Keys keys) {
    PartEnd end = plug(keys == Keys.ALIGNED ? Key.UP : Key.DOWN);
    return new ArrayPart(link, order, name, PartKind.TRUNK, map, end, end);
  }

  /** Cassette, trunk, cassette. */
  public static List<ArrayPart> channel(String link, MapType boxes, MapType trunk, Keys keys) {
    return new ArrayList<>(
        List.of(
            cassette(link, 2, link + "-C1", boxes, true),
            trunk(link, 3, link + "-T", trunk.map(12), keys),
            cassette(link, 4, link + "-C2", boxes, false)));
  }

  /** What would be measured of these parts behind one of them; order 0 for the whole link. */
  public static List<MeasuredPosition> measured(List<ArrayPart> parts, int after) {
    List<ArrayPart> upTo =
        after == 0 ? parts : parts.stream().filter(p -> p.order() <= after).toList();
    PositionMap map = new ArrayLink(parts.get(0).link(), upTo).map().orElseThrow();
    List<MeasuredPosition> measured = new ArrayList<>();
    for (int i = 1; i <= map.positions(); i++) {
      measured.add(new MeasuredPosition(parts.get(0).link(), i, map.at(i), after));
    }
    return measured;
  }
}
