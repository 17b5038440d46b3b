package ferrule.core.rulebook;

import ferrule.core.Problem;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook.EndKey;
import ferrule.core.rulebook.Rulebook.FibreKey;
import ferrule.core.rulebook.toml.Section;
import ferrule.core.rulebook.toml.TomlText;
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
 * <p>Unknown keys, unknown words, missing sources, figures given twice and figures that contradict
 * each other or the glass are refused, each with its line: a rulebook that is half understood would
 * judge links by limits nobody chose.
 *
 * <p>A rulebook may be {@code based_on} a shipped one: figures that it does not give are those of
 * that one, each with the source it has there.
 */
public final class RulebookReader {

  private static final Set<String> TOP =
      Set.of(
          "id",
          "title",
          "edition",
          "notes",
          "based_on",
          "fibre",
          "connection",
          "splice",
          "device",
          "link",
          "faces");

  private final SourcedToml form;
  private final Map<Object, Section> rows = new HashMap<>();

  private RulebookReader(String file) {
    this.form = new SourcedToml(file);
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
    return read(file, text, true);
  }

  /**
   * Reads a text that was accepted before and counts as it is: what a later version would call a
   * contradiction is no reason to refuse it.
   */
  public static Outcome readKept(String file, String text) {
    return read(file, text, false);
  }

  private static Outcome read(String file, String text, boolean refuseContradictions) {
    TomlText.Outcome toml = TomlText.read(file, text);
    return toml.section()
        .map(whole -> new RulebookReader(file).understand(whole, refuseContradictions))
        .orElseGet(() -> new Outcome(Optional.empty(), toml.problems()));
  }

  /**
   * A sound text as it must be kept: itself if it stands alone; with every figure written out if it
   * is based on another rulebook, which a later version may ship with other figures.
   */
  public static String standingAlone(String text, Rulebook rulebook) {
    boolean based =
        TomlText.read("", text).section().map(toml -> toml.contains("based_on")).orElse(false);
    return based ? RulebookToml.of(rulebook) : text;
  }

  private Outcome understand(Section toml, boolean refuseContradictions) {
    form.refuseUnknown(toml, TOP, "");
    String id = form.text(toml, "id", true);
    String title = form.text(toml, "title", true);
    String edition = form.text(toml, "edition", true);
    List<String> notes = form.notes(toml);
    Optional<Rulebook> base = base(toml);
    String faces = form.text(toml, "faces", false);
    if (!faces.isEmpty() && !ShippedRulebooks.criteriaIds().contains(faces)) {
      form.wrong(toml, "faces", String.join(" or ", ShippedRulebooks.criteriaIds()), faces);
    }
    Map<FibreKey, Figure> fibre = new HashMap<>();
    Map<FibreKind, Figure> inner = new EnumMap<>(FibreKind.class);
    Map<EndKey, Figure> end = new HashMap<>();
    Map<FibreKind, Figure> pair = new EnumMap<>(FibreKind.class);
    Map<FibreKind, Figure> splice = new EnumMap<>(FibreKind.class);
    Map<String, Figure> device = new HashMap<>();
    Map<FibreKind, Figure> link = new EnumMap<>(FibreKind.class);

    for (Section row : form.rows(toml, "fibre")) {
      form.refuseUnknown(row, Set.of("category", "wavelength_nm", "limit_db_per_km"), "fibre");
      FibreCategory category = category(row);
      Wavelength wavelength = wavelength(row);
      Figure figure = form.figure(row, "limit_db_per_km", 20);
      if (category != null && wavelength != null && figure != null) {
        enter(fibre, new FibreKey(category, wavelength), figure, row, "fibre");
      }
    }
    for (Section row : form.rows(toml, "connection")) {
      form.refuseUnknown(row, Set.of("fibre", "place", "cord", "limit_db"), "connection");
      FibreKind kind = kind(row);
      Figure figure = form.figure(row, "limit_db", 10);
      String place = form.text(row, "place", true);
      if (kind == null || figure == null) {
        continue;
      }
      switch (place) {
        case "inner" -> enter(inner, kind, figure, row, "connection", "inner");
        case "reference-pair" -> enter(pair, kind, figure, row, "connection", "reference-pair");
        case "end" -> {
          String word = form.text(row, "cord", true);
          Optional<CordGrade> grade = CordGrade.ofWord(word);
          if (grade.isPresent()) {
            enter(end, new EndKey(kind, grade.get()), figure, row, "connection");
          } else if (!word.isEmpty()) {
            form.wrong(row, "cord", "reference or standard", word);
          }
        }
        case "" -> {}
        default -> form.wrong(row, "place", "inner, end or reference-pair", place);
      }
    }
    for (Section row : form.rows(toml, "splice")) {
      form.refuseUnknown(row, Set.of("fibre", "limit_db"), "splice");
      FibreKind kind = kind(row);
      Figure figure = form.figure(row, "limit_db", 10);
      if (kind != null && figure != null) {
        enter(splice, kind, figure, row, "splice", "splice");
      }
    }
    for (Section row : form.rows(toml, "device")) {
      form.refuseUnknown(row, Set.of("device", "limit_db"), "device");
      String name = form.text(row, "device", true);
      Figure figure = form.figure(row, "limit_db", 60);
      if (!name.isEmpty() && figure != null) {
        enter(device, name, figure, row, "device");
      }
    }
    for (Section row : form.rows(toml, "link")) {
      form.refuseUnknown(row, Set.of("fibre", "limit_db"), "link");
      FibreKind kind = kind(row);
      Figure figure = form.figure(row, "limit_db", 60);
      if (kind != null && figure != null) {
        enter(link, kind, figure, row, "link", "link");
      }
    }
    if (form.problems().isEmpty() && fibre.isEmpty() && base.isEmpty()) {
      form.lacks("fibre", "at least one [[fibre]] limit");
    }
    if (!form.problems().isEmpty()) {
      return new Outcome(Optional.empty(), List.copyOf(form.problems()));
    }
    Rulebook own =
        new Rulebook(
            id,
            title,
            edition,
            notes,
            fibre,
            inner,
            end,
            pair,
            splice,
            device,
            link,
            faces.isEmpty() ? base.map(Rulebook::faces).orElse(Rulebook.USUAL_FACES) : faces);
    Rulebook whole = base.map(own::over).orElse(own);
    if (refuseContradictions) {
      new Contradictions(whole, rows, form).find();
    }
    return form.problems().isEmpty()
        ? new Outcome(Optional.of(whole), List.of())
        : new Outcome(Optional.empty(), List.copyOf(form.problems()));
  }

  /** The shipped rulebook that this one is based on, if it names one. */
  private Optional<Rulebook> base(Section toml) {
    String id = form.text(toml, "based_on", false);
    if (id.isEmpty()) {
      return Optional.empty();
    }
    Optional<Rulebook> base = ShippedRulebooks.find(id);
    if (base.isEmpty()) {
      form.wrong(toml, "based_on", "one of " + String.join(", ", ShippedRulebooks.ids()), id);
    }
    return base;
  }

  private <K> void enter(Map<K, Figure> map, K key, Figure figure, Section row, String table) {
    form.once(map, key, figure, row, table);
    rows.putIfAbsent(key, row);
  }

  private void enter(
      Map<FibreKind, Figure> map,
      FibreKind kind,
      Figure figure,
      Section row,
      String table,
      String place) {
    form.once(map, kind, figure, row, table);
    rows.putIfAbsent(place + " " + kind, row);
  }

  private @Nullable FibreCategory category(Section row) {
    String label = form.text(row, "category", true);
    Optional<FibreCategory> category = FibreCategory.ofLabel(label);
    if (category.isEmpty() && !label.isEmpty()) {
      form.wrong(row, "category", "OM1 to OM5, OS1, OS1a or OS2", label);
    }
    return category.orElse(null);
  }

  private @Nullable FibreKind kind(Section row) {
    String word = form.text(row, "fibre", true);
    for (FibreKind kind : FibreKind.values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    if (!word.isEmpty()) {
      form.wrong(row, "fibre", "single-mode or multimode", word);
    }
    return null;
  }

  private @Nullable Wavelength wavelength(Section row) {
    Object value = row.get("wavelength_nm");
    if (value instanceof Long nm && nm >= Wavelength.SHORTEST_NM && nm <= Wavelength.LONGEST_NM) {
      return new Wavelength(nm.intValue());
    }
    form.wrong(
        row,
        "wavelength_nm",
        "whole nanometres from 600 to 1700",
        value == null ? "nothing" : value.toString());
    return null;
  }
}
