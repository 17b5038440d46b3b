package ferrule.core.rulebook;

import ferrule.core.optics.FibreKind;
import ferrule.core.rulebook.Rulebook.EndKey;
import ferrule.core.rulebook.Rulebook.FibreKey;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * The figures of a rulebook that limit the same sort of thing.
 *
 * @param id short name: "ends"
 * @param title what they limit
 * @param unit "dB" or "dB/km"
 * @param rows one for each figure; not empty
 */
public record FigureGroup(String id, String title, String unit, List<Row> rows) {

  /**
   * One figure.
   *
   * @param what case that it holds for: "OS2 at 1310 nm"
   * @param figure number and source
   */
  public record Row(String what, Figure figure) {}

  /** Copies the list. */
  public FigureGroup {
    rows = List.copyOf(rows);
  }

  /** Every figure of a rulebook, in a fixed order; sorts without a figure are left out. */
  public static List<FigureGroup> of(Rulebook rulebook) {
    List<FigureGroup> groups = new ArrayList<>();
    add(
        groups,
        "fibre",
        "Most attenuation of cabled fibre",
        "dB/km",
        rulebook.fibre(),
        Comparator.comparing(FibreKey::category).thenComparing(FibreKey::wavelength),
        key -> key.category().label() + " at " + key.wavelength());
    add(
        groups,
        "ends",
        "Most loss of an end connection, by the plug of the test cord",
        "dB",
        rulebook.end(),
        Comparator.comparing(EndKey::kind).thenComparing(EndKey::cord),
        key -> key.kind().word() + ", " + key.cord().word() + "-grade cord");
    byKind(groups, "inner", "Most loss of a connection inside the link", rulebook.inner());
    byKind(
        groups, "pair", "Most loss of two reference-grade plugs mated", rulebook.referencePair());
    byKind(groups, "splice", "Most loss of a splice", rulebook.splice());
    add(
        groups,
        "device",
        "Most loss of a device",
        "dB",
        rulebook.device(),
        Comparator.naturalOrder(),
        name -> name);
    byKind(groups, "link", "Most loss of a whole link, if its parts allow more", rulebook.link());
    return groups;
  }

  private static void byKind(
      List<FigureGroup> groups, String id, String title, Map<FibreKind, Figure> figures) {
    add(groups, id, title, "dB", figures, Comparator.naturalOrder(), FibreKind::word);
  }

  private static <K> void add(
      List<FigureGroup> groups,
      String id,
      String title,
      String unit,
      Map<K, Figure> figures,
      Comparator<K> order,
      Function<K, String> words) {
    if (!figures.isEmpty()) {
      groups.add(
          new FigureGroup(
              id,
              title,
              unit,
              figures.entrySet().stream()
                  .sorted(Map.Entry.comparingByKey(order))
                  .map(e -> new Row(words.apply(e.getKey()), e.getValue()))
                  .toList()));
    }
  }
}
