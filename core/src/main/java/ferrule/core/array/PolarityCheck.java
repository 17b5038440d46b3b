package ferrule.core.array;

import ferrule.core.array.Suspect.Sort;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * A link's measured maps against the one computed from its parts.
 *
 * @param astray positions of end A that did not come out where the parts lead them, rising
 * @param arrivals "3 (green) came out at 4 (brown), not at 3", one for each
 * @param contradiction why the measurement cannot be right by itself; empty if it can
 * @param suspects what would explain it, each a clause; one if the faulty part can be told
 * @param check what tells the suspects apart, or what to do with the only one; one sentence
 * @param confirms the result that confirms it
 * @param refutes the result that refutes it
 */
public record PolarityCheck(
    List<Integer> astray,
    List<String> arrivals,
    String contradiction,
    List<String> suspects,
    String check,
    String confirms,
    String refutes) {

  /** Copies the lists. */
  public PolarityCheck {
    astray = List.copyOf(astray);
    arrivals = List.copyOf(arrivals);
    suspects = List.copyOf(suspects);
  }

  /** Whether everything that was read came out where the parts lead it. */
  public boolean agrees() {
    return astray.isEmpty();
  }

  /** Whether one part or joint alone explains it. */
  public boolean told() {
    return suspects.size() == 1;
  }

  /** The measured maps of a link, from end A on; the whole link's is last. */
  static List<MeasuredMap> maps(ArrayLink link, List<MeasuredPosition> measured) {
    TreeMap<Integer, List<MeasuredPosition>> byPart = new TreeMap<>();
    for (MeasuredPosition one : measured) {
      int part = one.after() == 0 ? link.parts().size() - 1 : link.indexOf(one.after());
      if (part >= 0) {
        byPart.computeIfAbsent(part, k -> new ArrayList<>()).add(one);
      }
    }
    List<MeasuredMap> maps = new ArrayList<>();
    byPart.forEach((part, read) -> maps.add(new MeasuredMap(part, link.positions(), read)));
    return maps;
  }

  /**
   * Checks a link.
   *
   * @param cleared whether another link through the same part shows that it is not of that type
   */
  static PolarityCheck of(
      ArrayLink link, List<MeasuredMap> maps, java.util.function.Predicate<Suspect> cleared) {
    TreeSet<Integer> astray = new TreeSet<>();
    List<String> arrivals = new ArrayList<>();
    String contradiction = "";
    for (MeasuredMap map : maps) {
      PositionMap expected = link.through(0, 2 * map.part()).orElse(null);
      if (expected == null) {
        continue;
      }
      String where =
          map.part() == link.parts().size() - 1
              ? ""
              : " behind " + link.parts().get(map.part()).named();
      for (int position : map.unlike(expected)) {
        astray.add(position);
        arrivals.add(
            FibreColour.shown(position)
                + " came out "
                + (map.dark(position) ? "nowhere" : "at " + FibreColour.shown(map.at(position)))
                + where
                + ", not at "
                + expected.at(position));
      }
      if (contradiction.isEmpty()) {
        contradiction = map.contradiction().map(c -> c + where).orElse("");
      }
    }
    if (astray.isEmpty()) {
      return new PolarityCheck(List.of(), List.of(), contradiction, List.of(), "", "", "");
    }
    List<Suspect> suspects =
        contradiction.isEmpty()
            ? new FaultSearch(link, maps).suspects().stream().filter(cleared.negate()).toList()
            : List.of();
    Told told = told(link, maps, suspects, contradiction);
    return new PolarityCheck(
        List.copyOf(astray),
        arrivals,
        contradiction,
        suspects.stream().map(Suspect::shown).toList(),
        told.check,
        told.confirms,
        told.refutes);
  }

  private record Told(String check, String confirms, String refutes) {}

  private static Told told(
      ArrayLink link, List<MeasuredMap> maps, List<Suspect> suspects, String contradiction) {
    if (!contradiction.isEmpty()) {
      return new Told(
          "Read the map again: " + contradiction + ", which no fibres do",
          "The map read again is one that fibres can make",
          "Two positions still come out at one place: look for a splitter or stray light");
    }
    List<Integer> dark =
        maps.stream()
            .flatMap(
                m ->
                    java.util.stream.IntStream.rangeClosed(1, m.positions())
                        .filter(m::dark)
                        .boxed())
            .distinct()
            .sorted()
            .toList();
    if (suspects.isEmpty() && !dark.isEmpty()) {
      return new Told(
          "Look for light at position "
              + dark.stream().map(FibreColour::shown).collect(Collectors.joining(", "))
              + " behind each part in turn, from end A",
          "It is lost behind one part: that part or its joint is broken, dirty or not seated",
          "It comes out at the far end: it was missed the first time");
    }
    if (suspects.isEmpty()) {
      return halve(link, maps, 0, link.stages() - 1);
    }
    if (suspects.get(0).sort() == Sort.OTHER_TYPE) {
      String places =
          suspects.stream().map(Suspect::named).distinct().collect(Collectors.joining(", "));
      return new Told(
          "Look at " + places + ": what is printed on a part, how the keys stand in a joint",
          suspects.size() == 1
              ? "It is so: " + suspects.get(0).shown()
              : "One of them is not as written: that is the fault",
          "All is as written: read the map behind each part in turn");
    }
    if (suspects.size() == 1) {
      return new Told(
          "Open " + suspects.get(0).named() + ": it alone explains the map",
          "It " + suspects.get(0).fault(),
          "It is as written: read the map behind each part again");
    }
    int from = suspects.stream().map(Suspect::stage).min(Comparator.naturalOrder()).orElse(0);
    int to = suspects.stream().map(Suspect::stage).max(Comparator.naturalOrder()).orElse(0);
    return halve(link, maps, from, to);
  }

  /** Reading one astray position behind a part in the middle says on which side the fault lies. */
  private static Told halve(ArrayLink link, List<MeasuredMap> maps, int from, int to) {
    int first = (from + 1) / 2;
    int last = Math.max(first, (to - 1) / 2);
    int part = (first + last) / 2;
    Optional<PositionMap> here = link.through(0, 2 * part);
    Integer position =
        maps.stream()
            .flatMap(m -> link.through(0, 2 * m.part()).map(m::unlike).orElse(List.of()).stream())
            .findFirst()
            .orElse(1);
    String name = link.parts().get(part).named();
    return new Told(
        "Read position "
            + FibreColour.shown(position)
            + " of end A behind "
            + name
            + (here.isPresent() ? ", where it belongs at " + here.get().at(position) : ""),
        "It comes out elsewhere: the fault lies in " + name + " or before it",
        "It comes out there: the fault lies behind " + name);
  }
}
