package ferrule.core.face;

import ferrule.core.Problem;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Provenance;
import ferrule.core.rulebook.SourcedToml;
import ferrule.core.rulebook.toml.Section;
import ferrule.core.rulebook.toml.TomlText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Reads criteria for end faces from TOML text; see CONTRIBUTING.md for the form. Like a rulebook,
 * criteria that are half understood are refused, each fault with its line; and so are sizes that no
 * row speaks of, or two.
 */
public final class CriteriaReader {

  private static final Set<String> TOP =
      Set.of("id", "title", "edition", "notes", "resolution", "array", "zone", "limit");

  /** Wider than any ferrule, µm. */
  private static final double WIDEST_UM = 3000;

  private static final int MOST_COUNT = 1000;

  private final SourcedToml form;
  private final Map<FaceClass, Map<Zone, Figure>> outer = new EnumMap<>(FaceClass.class);
  private final Map<FaceClass, List<CountLimit>> limits = new EnumMap<>(FaceClass.class);

  private CriteriaReader(String file) {
    this.form = new SourcedToml(file);
  }

  /**
   * Criteria, or the reasons why there are none.
   *
   * @param criteria present only if there are no problems
   * @param problems one for each thing wrong, in the order found
   */
  public record Outcome(Optional<Criteria> criteria, List<Problem> problems) {}

  /**
   * Reads the text of criteria.
   *
   * @param file name to show in problems
   * @param text TOML
   */
  public static Outcome read(String file, String text) {
    TomlText.Outcome toml = TomlText.read(file, text);
    return toml.section()
        .map(whole -> new CriteriaReader(file).understand(whole))
        .orElseGet(() -> new Outcome(Optional.empty(), toml.problems()));
  }

  private Outcome understand(Section toml) {
    form.refuseUnknown(toml, TOP, "");
    String id = form.text(toml, "id", true);
    String title = form.text(toml, "title", true);
    String edition = form.text(toml, "edition", true);
    List<String> notes = form.notes(toml);
    Figure smallest = null;
    if (toml.get("resolution") instanceof Section row) {
      form.refuseUnknown(row, Set.of("smallest_um"), "resolution");
      smallest = form.figure(row, "smallest_um", WIDEST_UM);
    } else {
      form.lacks("resolution", "a table [resolution] with smallest_um");
    }
    Set<Zone> arrayZones = EnumSet.noneOf(Zone.class);
    Provenance arraySource = null;
    if (toml.get("array") instanceof Section row) {
      form.refuseUnknown(row, Set.of("zones"), "array");
      arrayZones(row, arrayZones);
      arraySource = form.provenance(row);
    } else {
      form.lacks("array", "a table [array] with zones");
    }
    form.rows(toml, "zone").forEach(this::band);
    form.rows(toml, "limit").forEach(this::limit);
    Map<FaceClass, ClassCriteria> classes = new EnumMap<>(FaceClass.class);
    if (form.problems().isEmpty()) {
      outer.forEach((faceClass, zones) -> classes.put(faceClass, whole(faceClass, zones)));
      for (FaceClass faceClass : limits.keySet()) {
        if (!outer.containsKey(faceClass)) {
          form.lacks("zone", "zones for class " + faceClass.id());
        }
      }
      if (classes.isEmpty()) {
        form.lacks("zone", "at least one class with zones and limits");
      }
    }
    if (!form.problems().isEmpty() || smallest == null || arraySource == null) {
      return new Outcome(Optional.empty(), List.copyOf(form.problems()));
    }
    return new Outcome(
        Optional.of(
            new Criteria(id, title, edition, notes, smallest, arrayZones, arraySource, classes)),
        List.of());
  }

  private void arrayZones(Section row, Set<Zone> zones) {
    if (row.get("zones") instanceof List<?> words && !words.isEmpty()) {
      for (Object word : words) {
        Optional<Zone> zone = zone(String.valueOf(word));
        zone.ifPresentOrElse(
            zones::add, () -> form.wrong(row, "zones", "A, B, C or D", String.valueOf(word)));
      }
    } else {
      form.wrong(row, "zones", "a list of A, B, C or D", String.valueOf(row.get("zones")));
    }
  }

  private void band(Section row) {
    form.refuseUnknown(row, Set.of("class", "zone", "outer_um"), "zone");
    FaceClass faceClass = faceClass(row);
    Zone zone = zone(row);
    Figure figure = form.figure(row, "outer_um", WIDEST_UM);
    if (faceClass != null && zone != null && figure != null) {
      form.once(
          outer.computeIfAbsent(faceClass, k -> new EnumMap<>(Zone.class)),
          zone,
          figure,
          row,
          "zone");
    }
  }

  private void limit(Section row) {
    form.refuseUnknown(
        row,
        Set.of("class", "zone", "flaw", "over_um", "from_um", "below_um", "to_um", "most"),
        "limit");
    FaceClass faceClass = faceClass(row);
    Zone zone = zone(row);
    String word = form.text(row, "flaw", true);
    Optional<FlawKind> kind = FlawKind.ofWord(word);
    if (kind.isEmpty() && !word.isEmpty()) {
      form.wrong(row, "flaw", "defect or scratch", word);
    }
    SizeRange sizes = sizes(row);
    OptionalInt most = most(row);
    Provenance source = form.provenance(row);
    if (faceClass != null && zone != null && kind.isPresent() && sizes != null && source != null) {
      limits
          .computeIfAbsent(faceClass, k -> new ArrayList<>())
          .add(new CountLimit(zone, kind.get(), sizes, most, source));
    }
  }

  private @Nullable SizeRange sizes(Section row) {
    boolean from = row.contains("from_um");
    boolean to = row.contains("to_um");
    if ((from && row.contains("over_um")) || (to && row.contains("below_um"))) {
      form.wrong(
          row,
          from ? "from_um" : "to_um",
          "one lower end (over_um or from_um) and one upper end (to_um or below_um)",
          "two");
      return null;
    }
    double low = 0;
    if (from || row.contains("over_um")) {
      low = form.number(row, from ? "from_um" : "over_um", WIDEST_UM);
    }
    double high = Double.POSITIVE_INFINITY;
    if (to || row.contains("below_um")) {
      high = form.number(row, to ? "to_um" : "below_um", WIDEST_UM);
    }
    if (Double.isNaN(low) || Double.isNaN(high)) {
      return null;
    }
    if (!(high > low)) {
      form.wrong(row, to ? "to_um" : "below_um", "more than " + low, String.valueOf(high));
      return null;
    }
    return new SizeRange(low, from, high, to);
  }

  private OptionalInt most(Section row) {
    Object value = row.get("most");
    if (value instanceof Long count && count >= 0 && count <= MOST_COUNT) {
      return OptionalInt.of(count.intValue());
    }
    if (!"unlimited".equals(value)) {
      form.wrong(
          row,
          "most",
          "a whole number from 0 to " + MOST_COUNT + ", or \"unlimited\"",
          value == null ? "nothing" : value.toString());
    }
    return OptionalInt.empty();
  }

  /** Puts the rows of one class in order, and notes gaps and overlaps. */
  private ClassCriteria whole(FaceClass faceClass, Map<Zone, Figure> zones) {
    List<ZoneBand> bands = new ArrayList<>();
    List<CountLimit> ordered = new ArrayList<>();
    double inner = 0;
    for (Zone zone : Zone.values()) {
      Figure edge = zones.get(zone);
      if (edge == null) {
        form.lacks("zone", "zone " + zone + " of class " + faceClass.id());
        continue;
      }
      if (!(edge.value() > inner)) {
        form.lacks(
            "zone",
            "an outer_um over " + inner + " for zone " + zone + " of class " + faceClass.id());
      }
      bands.add(new ZoneBand(zone, inner, edge));
      inner = edge.value();
      for (FlawKind kind : FlawKind.values()) {
        List<CountLimit> rows = rows(faceClass, zone, kind);
        if (!coverAllSizesOnce(rows)) {
          form.lacks(
              "limit",
              "rows that cover every size once for class "
                  + faceClass.id()
                  + ", zone "
                  + zone
                  + ", "
                  + kind.word());
        }
        ordered.addAll(rows);
      }
    }
    return new ClassCriteria(faceClass, bands, ordered);
  }

  private List<CountLimit> rows(FaceClass faceClass, Zone zone, FlawKind kind) {
    return limits.getOrDefault(faceClass, List.of()).stream()
        .filter(l -> l.zone() == zone && l.kind() == kind)
        .sorted(Comparator.comparingDouble(l -> l.sizes().lowUm()))
        .toList();
  }

  private static boolean coverAllSizesOnce(List<CountLimit> rows) {
    if (rows.isEmpty()
        || rows.get(0).sizes().lowUm() != 0
        || !Double.isInfinite(rows.get(rows.size() - 1).sizes().highUm())) {
      return false;
    }
    for (int i = 1; i < rows.size(); i++) {
      if (!rows.get(i - 1).sizes().isFollowedBy(rows.get(i).sizes())) {
        return false;
      }
    }
    return true;
  }

  private @Nullable FaceClass faceClass(Section row) {
    String id = form.text(row, "class", true);
    Optional<FaceClass> found = FaceClass.ofId(id);
    if (found.isEmpty() && !id.isEmpty()) {
      form.wrong(row, "class", "sm-pc, sm-apc, sm-pc26 or mm", id);
    }
    return found.orElse(null);
  }

  private @Nullable Zone zone(Section row) {
    String word = form.text(row, "zone", true);
    Optional<Zone> found = zone(word);
    if (found.isEmpty() && !word.isEmpty()) {
      form.wrong(row, "zone", "A, B, C or D", word);
    }
    return found.orElse(null);
  }

  private static Optional<Zone> zone(String word) {
    for (Zone zone : Zone.values()) {
      if (zone.name().equals(word)) {
        return Optional.of(zone);
      }
    }
    return Optional.empty();
  }
}
