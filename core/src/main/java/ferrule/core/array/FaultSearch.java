package ferrule.core.array;

import ferrule.core.array.Suspect.Sort;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Which single part or joint of a link explains what was measured.
 *
 * <p>Each stage in turn is supposed wrong and all others right. Every position that came out behind
 * the stage then says where the stage must lead it. A stage is a suspect if these demands do not
 * contradict each other and everything that came out before it came out right. What it would be is
 * then compared with what such a thing can be by mistake: a part of another type, a joint with its
 * keys the other way; or two positions exchanged; or several mixed up.
 */
final class FaultSearch {

  private final ArrayLink link;
  private final List<MeasuredMap> measured;

  FaultSearch(ArrayLink link, List<MeasuredMap> measured) {
    this.link = link;
    this.measured = measured;
  }

  /** The suspects of the plainest sort that there is, from end A on. */
  List<Suspect> suspects() {
    List<Suspect> all = new ArrayList<>();
    for (int stage = 0; stage < link.stages(); stage++) {
      suspects(stage, all);
    }
    Sort plainest = all.stream().map(Suspect::sort).min(Enum::compareTo).orElse(Sort.MIXED);
    return all.stream().filter(s -> s.sort() == plainest).toList();
  }

  private void suspects(int stage, List<Suspect> out) {
    PositionMap own = link.stage(stage).orElse(null);
    Optional<int[]> demands = demands(stage);
    if (own == null || demands.isEmpty()) {
      return;
    }
    int[] asked = demands.get();
    List<Integer> moved = moved(own, asked);
    if (moved.isEmpty()) {
      return;
    }
    if (stage % 2 != 0) {
      joint(stage, asked, out);
      return;
    }
    ArrayPart part = link.parts().get(stage / 2);
    int before = out.size();
    for (MapType type : types(part)) {
      PositionMap map = part.mapAs(type);
      if (!map.equals(own) && fits(map, asked)) {
        out.add(
            new Suspect(
                stage,
                link.named(stage),
                "is " + typeShown(part, type) + ", not " + part.typeShown(),
                Sort.OTHER_TYPE,
                type));
      }
    }
    if (out.size() == before) {
      out.add(mixed(stage, part, own, asked, moved));
    }
  }

  private void joint(int stage, int[] asked, List<Suspect> out) {
    Joint joint = link.joints().get(stage / 2);
    Keys keys = joint.keys().orElse(null);
    if (keys != null && fits(keys.turned().map(link.positions()), asked)) {
      out.add(
          new Suspect(
              stage,
              link.named(stage),
              "has its keys " + keys.turned().shown() + ", not " + keys.shown(),
              Sort.OTHER_TYPE,
              MapType.LISTED));
    }
  }

  private Suspect mixed(
      int stage, ArrayPart part, PositionMap own, int[] asked, List<Integer> moved) {
    // With one of two exchanged positions read, the other follows.
    Set<Integer> touched = new HashSet<>(moved);
    if (moved.size() == 1) {
      touched.add(own.inverse().at(asked[moved.get(0)]));
    }
    List<Integer> shown = touched.stream().sorted().toList();
    if (shown.size() == 2) {
      String side = part.kind() == PartKind.CASSETTE && !part.a().array() ? "ports " : "positions ";
      return new Suspect(
          stage,
          link.named(stage),
          "has its "
              + side
              + FibreColour.shown(shown.get(0))
              + " and "
              + FibreColour.shown(shown.get(1))
              + ", counted at its end towards A, exchanged",
          Sort.TWO_EXCHANGED,
          MapType.LISTED);
    }
    return new Suspect(
        stage,
        link.named(stage),
        "leads " + shown.size() + " positions elsewhere than written",
        Sort.MIXED,
        MapType.LISTED);
  }

  /** What a part of this kind may be by mistake. */
  private static List<MapType> types(ArrayPart part) {
    List<MapType> types =
        part.kind() == PartKind.DUPLEX_CORD
            ? List.of(MapType.STRAIGHT, MapType.PAIR_FLIPPED)
            : part.kind().arrayAtBothEnds()
                ? List.of(MapType.STRAIGHT, MapType.REVERSED, MapType.PAIR_FLIPPED)
                : List.of(
                    MapType.STRAIGHT, MapType.REVERSED, MapType.PAIR_FLIPPED, MapType.UNIVERSAL);
    return types.stream().filter(t -> t.fits(part.positions())).toList();
  }

  private static String typeShown(ArrayPart part, MapType type) {
    if (part.kind() == PartKind.DUPLEX_CORD) {
      return type == MapType.STRAIGHT ? ArrayPart.DUPLEX_CROSSED : ArrayPart.DUPLEX_STRAIGHT;
    }
    return part.kind().arrayAtBothEnds() ? type.shown() : type.word();
  }

  private static boolean fits(PositionMap map, int[] asked) {
    return moved(map, asked).isEmpty();
  }

  /** Positions that this map leads elsewhere than asked. */
  private static List<Integer> moved(PositionMap map, int[] asked) {
    List<Integer> moved = new ArrayList<>();
    for (int i = 1; i < asked.length; i++) {
      if (asked[i] != 0 && map.at(i) != asked[i]) {
        moved.add(i);
      }
    }
    return moved;
  }

  /**
   * Where the stage must lead what reaches it, by position and 0 if that is open, if it alone is
   * wrong; empty if it cannot be that alone.
   */
  private Optional<int[]> demands(int stage) {
    int[] demands = new int[link.positions() + 1];
    for (MeasuredMap map : measured) {
      int last = 2 * map.part();
      if (last < stage) {
        if (link.through(0, last).filter(map::agrees).isEmpty()) {
          return Optional.empty();
        }
        continue;
      }
      Optional<PositionMap> before = link.through(0, stage - 1);
      Optional<PositionMap> behind = link.through(stage + 1, last);
      if (before.isEmpty() || behind.isEmpty()) {
        return Optional.empty();
      }
      PositionMap back = behind.get().inverse();
      for (int i = 1; i <= map.positions(); i++) {
        if (map.lit(i)) {
          int to = back.at(map.at(i));
          int reaches = before.get().at(i);
          if (demands[reaches] != 0 && demands[reaches] != to) {
            return Optional.empty();
          }
          demands[reaches] = to;
        }
      }
    }
    long asked = Arrays.stream(demands).filter(d -> d != 0).count();
    long places = Arrays.stream(demands).filter(d -> d != 0).distinct().count();
    return places == asked ? Optional.of(demands) : Optional.empty();
  }
}
