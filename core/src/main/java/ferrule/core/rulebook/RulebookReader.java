package ferrule.core.rulebook;

import ferrule.core.Problem;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook.EndKey;
import ferrule.core.rulebook.Rulebook.FibreKey;
import ferrule.core.rulebook.toml.Section;
import ferrule.core.rulebook.toml.TomlText;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Reads a rulebook from TOML text. The shipped rulebooks and an owner's own have the same form; see
 * CONTRIBUTING.md for it.
 *
 * <p>Unknown keys, unknown words, missing sources and figures given twice are refused, each with
 * its line: a rulebook that is half understood would judge links by limits nobody chose.
 */
public final class RulebookReader {

  private static final Set<String> TOP =
      Set.of("id", "title", "edition", "notes", "fibre", "connection", "splice", "device");
  private static final Set<String> SOURCE =
      Set.of("standard", "edition", "clause", "confidence", "seen_in");

  private final String file;
  private final List<Problem> problems = new ArrayList<>();

  private RulebookReader(String file) {
    this.file = file;
  }

  /**
   * A rulebook, or the reasons why there is none.
   *
   * @param rulebook present only if there are no problems
   * @param problems one for each thing wrong, in the order of the file
   */
  public record Outcome(Optional<Rulebook> rulebook, List<Problem> problems) {}

  /**
   * Reads the text of a rulebook.
   *
   * @param file name to show in problems
   * @param text TOML
   */
  public static Outcome read(String file, String text) {
    TomlText.Outcome toml = TomlText.read(file, text);
    return toml.section()
        .map(whole -> new RulebookReader(file).understand(whole))
        .orElseGet(() -> new Outcome(Optional.empty(), toml.problems()));
  }

  private Outcome understand(Section toml) {
    refuseUnknown(toml, TOP, "");
    String id = text(toml, "id", true);
    String title = text(toml, "title", true);
    String edition = text(toml, "edition", true);
    List<String> notes = notes(toml);
    Map<FibreKey, Figure> fibre = new HashMap<>();
    Map<FibreKind, Figure> inner = new EnumMap<>(FibreKind.class);
    Map<EndKey, Figure> end = new HashMap<>();
    Map<FibreKind, Figure> pair = new EnumMap<>(FibreKind.class);
    Map<FibreKind, Figure> splice = new EnumMap<>(FibreKind.class);
    Map<String, Figure> device = new HashMap<>();

    for (Section row : rows(toml, "fibre")) {
      refuseUnknown(row, Set.of("category", "wavelength_nm", "limit_db_per_km"), "fibre");
      FibreCategory category = category(row);
      Wavelength wavelength = wavelength(row);
      Figure figure = figure(row, "limit_db_per_km", 20);
      if (category != null && wavelength != null && figure != null) {
        once(fibre, new FibreKey(category, wavelength), figure, row, "fibre");
      }
    }
    for (Section row : rows(toml, "connection")) {
      refuseUnknown(row, Set.of("fibre", "place", "cord", "limit_db"), "connection");
      FibreKind kind = kind(row);
      Figure figure = figure(row, "limit_db", 10);
      String place = text(row, "place", true);
      if (kind == null || figure == null) {
        continue;
      }
      switch (place) {
        case "inner" -> once(inner, kind, figure, row, "connection");
        case "reference-pair" -> once(pair, kind, figure, row, "connection");
        case "end" -> {
          String word = text(row, "cord", true);
          Optional<CordGrade> grade = CordGrade.ofWord(word);
          if (grade.isPresent()) {
            once(end, new EndKey(kind, grade.get()), figure, row, "connection");
          } else if (!word.isEmpty()) {
            wrong(row, "cord", "reference or standard", word);
          }
        }
        case "" -> {}
        default -> wrong(row, "place", "inner, end or reference-pair", place);
      }
    }
    for (Section row : rows(toml, "splice")) {
      refuseUnknown(row, Set.of("fibre", "limit_db"), "splice");
      FibreKind kind = kind(row);
      Figure figure = figure(row, "limit_db", 10);
      if (kind != null && figure != null) {
        once(splice, kind, figure, row, "splice");
      }
    }
    for (Section row : rows(toml, "device")) {
      refuseUnknown(row, Set.of("device", "limit_db"), "device");
      String name = text(row, "device", true);
      Figure figure = figure(row, "limit_db", 60);
      if (!name.isEmpty() && figure != null) {
        once(device, name, figure, row, "device");
      }
    }
    if (problems.isEmpty() && fibre.isEmpty()) {
      problems.add(
          new Problem(file, 0, "fibre", "at least one [[fibre]] limit", "none", "add one"));
    }
    if (!problems.isEmpty()) {
      return new Outcome(Optional.empty(), List.copyOf(problems));
    }
    return new Outcome(
        Optional.of(
            new Rulebook(id, title, edition, notes, fibre, inner, end, pair, splice, device)),
        List.of());
  }

  private <K> void once(Map<K, Figure> map, K key, Figure figure, Section row, String table) {
    if (map.putIfAbsent(key, figure) != null) {
      problems.add(
          new Problem(
              file,
              line(row, row.keys().iterator().next()),
              table,
              "each figure once",
              "a second entry for the same case",
              "keep one of the two"));
    }
  }

  private List<String> notes(Section toml) {
    List<String> notes = new ArrayList<>();
    if (toml.get("notes") instanceof List<?> array) {
      for (Object one : array) {
        if (one instanceof String note) {
          notes.add(note);
        } else {
          wrong(toml, "notes", "a list of texts", String.valueOf(one));
        }
      }
    } else if (toml.contains("notes")) {
      wrong(toml, "notes", "a list of texts", String.valueOf(toml.get("notes")));
    }
    return notes;
  }

  private List<Section> rows(Section toml, String name) {
    List<Section> rows = new ArrayList<>();
    Object value = toml.get(name);
    if (value == null) {
      return rows;
    }
    if (value instanceof List<?> array) {
      for (Object one : array) {
        if (one instanceof Section table) {
          rows.add(table);
        } else {
          wrong(toml, name, "tables, each begun with [[" + name + "]]", String.valueOf(one));
        }
      }
    } else {
      wrong(toml, name, "tables, each begun with [[" + name + "]]", String.valueOf(value));
    }
    return rows;
  }

  private void refuseUnknown(Section table, Set<String> known, String where) {
    for (String key : table.keys()) {
      if (!known.contains(key) && (where.isEmpty() || !SOURCE.contains(key))) {
        problems.add(
            new Problem(
                file,
                line(table, key),
                where.isEmpty() ? key : where + "." + key,
                "one of " + String.join(", ", known.stream().sorted().toList()),
                key,
                "correct the spelling or take it out"));
      }
    }
  }

  private @Nullable FibreCategory category(Section row) {
    String label = text(row, "category", true);
    Optional<FibreCategory> category = FibreCategory.ofLabel(label);
    if (category.isEmpty() && !label.isEmpty()) {
      wrong(row, "category", "OM1 to OM5, OS1, OS1a or OS2", label);
    }
    return category.orElse(null);
  }

  private @Nullable FibreKind kind(Section row) {
    String word = text(row, "fibre", true);
    for (FibreKind kind : FibreKind.values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    if (!word.isEmpty()) {
      wrong(row, "fibre", "single-mode or multimode", word);
    }
    return null;
  }

  private @Nullable Wavelength wavelength(Section row) {
    Object value = row.get("wavelength_nm");
    if (value instanceof Long nm && nm >= Wavelength.SHORTEST_NM && nm <= Wavelength.LONGEST_NM) {
      return new Wavelength(nm.intValue());
    }
    wrong(
        row,
        "wavelength_nm",
        "whole nanometres from 600 to 1700",
        value == null ? "nothing" : value.toString());
    return null;
  }

  private @Nullable Figure figure(Section row, String key, double most) {
    Object value = row.get(key);
    double number =
        value instanceof Long whole
            ? whole.doubleValue()
            : value instanceof Double real ? real : Double.NaN;
    if (!(number >= 0 && number <= most)) {
      wrong(row, key, "a number from 0 to " + most, value == null ? "nothing" : value.toString());
      return null;
    }
    String standard = text(row, "standard", true);
    String confidenceId = text(row, "confidence", true);
    String seenIn = text(row, "seen_in", true);
    Optional<Confidence> confidence = Confidence.ofId(confidenceId);
    if (confidence.isEmpty()) {
      if (!confidenceId.isEmpty()) {
        wrong(row, "confidence", "two-sources, one-source, memory or owner", confidenceId);
      }
      return null;
    }
    return new Figure(
        number,
        new Provenance(
            standard,
            text(row, "edition", false),
            text(row, "clause", false),
            confidence.get(),
            seenIn));
  }

  private String text(Section table, String key, boolean required) {
    Object value = table.get(key);
    if (value instanceof String string && !(required && string.isBlank())) {
      return string;
    }
    if (value != null || required) {
      wrong(table, key, "a text in quotes", value == null ? "nothing" : value.toString());
    }
    return "";
  }

  private void wrong(Section table, String key, String expected, String found) {
    problems.add(
        new Problem(
            file,
            line(table, key),
            key,
            expected,
            found.isEmpty() ? "nothing" : found,
            "correct it"));
  }

  /** The line of the key or, if it has none, of the first key in the table that has one. */
  private static int line(Section table, String key) {
    int line = table.line(key);
    return line > 0
        ? line
        : table.keys().stream().mapToInt(table::line).filter(n -> n > 0).findFirst().orElse(0);
  }
}
