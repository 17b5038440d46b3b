package ferrule.core.rulebook;

import ferrule.core.Problem;
import ferrule.core.rulebook.toml.Section;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Takes apart a TOML text whose figures carry their sources, and notes what is wrong with it: the
 * part that rulebooks and face criteria have in common.
 */
public final class SourcedToml {

  private static final Set<String> SOURCE =
      Set.of("standard", "edition", "clause", "confidence", "seen_in");

  private final String file;
  private final List<Problem> problems = new ArrayList<>();

  /**
   * For one text.
   *
   * @param file name to show in problems
   */
  public SourcedToml(String file) {
    this.file = file;
  }

  /** What is wrong so far, in the order found. */
  public List<Problem> problems() {
    return Collections.unmodifiableList(problems);
  }

  /** Notes a problem with the text as a whole. */
  public void lacks(String key, String expected) {
    problems.add(new Problem(file, 0, key, expected, "none", "add one"));
  }

  /** The texts under "notes"; none is fine. */
  public List<String> notes(Section toml) {
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

  /** The tables that begin with [[name]], in the order of the text. */
  public List<Section> rows(Section toml, String name) {
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

  /**
   * Notes every key that is not known.
   *
   * @param where name of the tables, in which the keys of a source are known too; empty at the top
   */
  public void refuseUnknown(Section table, Set<String> known, String where) {
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

  /**
   * A number with its source; null, and problems, if either is wanting.
   *
   * @param most largest value allowed; the least is 0
   */
  public @Nullable Figure figure(Section row, String key, double most) {
    double number = number(row, key, most);
    Provenance provenance = provenance(row);
    return Double.isNaN(number) || provenance == null ? null : new Figure(number, provenance);
  }

  /** A number from 0 to {@code most}; NaN, and a problem, if there is none. */
  public double number(Section row, String key, double most) {
    Object value = row.get(key);
    double number =
        value instanceof Long whole
            ? whole.doubleValue()
            : value instanceof Double real ? real : Double.NaN;
    if (number >= 0 && number <= most) {
      return number;
    }
    wrong(row, key, "a number from 0 to " + most, value == null ? "nothing" : value.toString());
    return Double.NaN;
  }

  /** The source that a table names; null, and problems, if it names none. */
  public @Nullable Provenance provenance(Section row) {
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
    return new Provenance(
        standard,
        text(row, "edition", false),
        text(row, "clause", false),
        confidence.get(),
        seenIn);
  }

  /** A text; empty, and a problem where it is required, if there is none. */
  public String text(Section table, String key, boolean required) {
    Object value = table.get(key);
    if (value instanceof String string && !(required && string.isBlank())) {
      return string;
    }
    if (value != null || required) {
      wrong(table, key, "a text in quotes", value == null ? "nothing" : value.toString());
    }
    return "";
  }

  /** Notes that the value under a key is not what was expected. */
  public void wrong(Section table, String key, String expected, String found) {
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

  /** Enters what may be given only once. */
  public <K, V> void once(Map<K, V> map, K key, V value, Section row, String table) {
    if (map.putIfAbsent(key, value) != null) {
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
}
