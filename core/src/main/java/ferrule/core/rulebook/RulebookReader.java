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
 * <p>Unknown keys, unknown words, missing sources and figures given twice are refused, each with
 * its line: a rulebook that is half understood would judge links by limits nobody chose.
 */
public final class RulebookReader {

  private static final Set<String> TOP =
      Set.of("id", "title", "edition", "notes", "fibre", "connection", "splice", "device", "faces");
  private final SourcedToml form;

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
    TomlText.Outcome toml = TomlText.read(file, text);
    return toml.section()
        .map(whole -> new RulebookReader(file).understand(whole))
        .orElseGet(() -> new Outcome(Optional.empty(), toml.problems()));
  }

  private Outcome understand(Section toml) {
    form.refuseUnknown(toml, TOP, "");
    String id = form.text(toml, "id", true);
    String title = form.text(toml, "title", true);
    String edition = form.text(toml, "edition", true);
    List<String> notes = form.notes(toml);
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

    for (Section row : form.rows(toml, "fibre")) {
      form.refuseUnknown(row, Set.of("category", "wavelength_nm", "limit_db_per_km"), "fibre");
      FibreCategory category = category(row);
      Wavelength wavelength = wavelength(row);
      Figure figure = form.figure(row, "limit_db_per_km", 20);
      if (category != null && wavelength != null && figure != null) {
        form.once(fibre, new FibreKey(category, wavelength), figure, row, "fibre");
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
        case "inner" -> form.once(inner, kind, figure, row, "connection");
        case "reference-pair" -> form.once(pair, kind, figure, row, "connection");
        case "end" -> {
          String word = form.text(row, "cord", true);
          Optional<CordGrade> grade = CordGrade.ofWord(word);
          if (grade.isPresent()) {
            form.once(end, new EndKey(kind, grade.get()), figure, row, "connection");
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
        form.once(splice, kind, figure, row, "splice");
      }
    }
    for (Section row : form.rows(toml, "device")) {
      form.refuseUnknown(row, Set.of("device", "limit_db"), "device");
      String name = form.text(row, "device", true);
      Figure figure = form.figure(row, "limit_db", 60);
      if (!name.isEmpty() && figure != null) {
        form.once(device, name, figure, row, "device");
      }
    }
    if (form.problems().isEmpty() && fibre.isEmpty()) {
      form.lacks("fibre", "at least one [[fibre]] limit");
    }
    if (!form.problems().isEmpty()) {
      return new Outcome(Optional.empty(), List.copyOf(form.problems()));
    }
    return new Outcome(
        Optional.of(
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
                faces.isEmpty() ? Rulebook.USUAL_FACES : faces)),
        List.of());
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
