package ferrule.core.application;

import ferrule.core.Problem;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Confidence;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Provenance;
import ferrule.core.rulebook.SourcedToml;
import ferrule.core.rulebook.toml.Section;
import ferrule.core.rulebook.toml.TomlText;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Reads limits of applications from TOML text. Unknown keys and words, missing sources, limits that
 * contradict each other and a second entry for the same fibre are refused with their line.
 */
public final class ApplicationReader {

  private static final Set<String> KEYS =
      Set.of(
          "family",
          "name",
          "fibre",
          "wavelengths_nm",
          "fibres",
          "most_loss_db",
          "least_loss_db",
          "least_loss_confidence",
          "least_loss_standard",
          "most_length_m",
          "least_length_m",
          "length_confidence",
          "length_seen_in",
          "length_standard",
          "note");
  private static final Set<String> FAMILIES = Set.of("Ethernet", "Fibre Channel", "access");
  private static final double MOST_DB = 60;
  private static final double MOST_M = 200_000;

  private final SourcedToml form;

  private ApplicationReader(String file) {
    this.form = new SourcedToml(file);
  }

  /**
   * Applications, or what is wrong.
   *
   * @param applications in the order of the text; empty if there are problems
   * @param problems one for each thing wrong
   */
  public record Outcome(List<Application> applications, List<Problem> problems) {}

  /**
   * Reads a text.
   *
   * @param file name to show in problems
   * @param text TOML
   */
  public static Outcome read(String file, String text) {
    TomlText.Outcome toml = TomlText.read(file, text);
    return toml.section()
        .map(whole -> new ApplicationReader(file).understand(whole))
        .orElseGet(() -> new Outcome(List.of(), toml.problems()));
  }

  private Outcome understand(Section toml) {
    form.refuseUnknown(toml, Set.of("application"), "");
    List<Application> found = new ArrayList<>();
    Map<String, Application> seen = new HashMap<>();
    for (Section row : form.rows(toml, "application")) {
      int before = form.problems().size();
      Application application = application(row);
      if (form.problems().size() == before) {
        found.add(application);
        for (FibreCategory category : application.categories()) {
          form.once(seen, application.name() + "\n" + category, application, row, "application");
        }
      }
    }
    List<Problem> problems = List.copyOf(form.problems());
    return new Outcome(problems.isEmpty() ? List.copyOf(found) : List.of(), problems);
  }

  private Application application(Section row) {
    form.refuseUnknown(row, KEYS, "application");
    String family = form.text(row, "family", true);
    if (!family.isEmpty() && !FAMILIES.contains(family)) {
      form.wrong(row, "family", "Ethernet, Fibre Channel or access", family);
    }
    Provenance loss =
        Optional.ofNullable(form.provenance(row))
            .orElse(new Provenance("", "", "", Confidence.MEMORY, ""));
    Provenance least =
        row.contains("least_loss_db")
            ? with(loss, row, "least_loss_confidence", "", "least_loss_standard")
            : loss;
    Provenance length = with(loss, row, "length_confidence", "length_seen_in", "length_standard");
    Application made =
        new Application(
            family,
            form.text(row, "name", true),
            categories(row),
            wavelengths(row),
            (int) form.number(row, "fibres", 64),
            figure(row, "most_loss_db", MOST_DB, loss),
            figure(row, "least_loss_db", MOST_DB, least),
            figure(row, "most_length_m", MOST_M, length),
            figure(row, "least_length_m", MOST_M, length),
            form.text(row, "note", false));
    ordered(row, "least_loss_db", made.leastLoss(), made.mostLoss());
    ordered(row, "least_length_m", made.leastLength(), made.mostLength());
    return made;
  }

  private void ordered(Section row, String key, Optional<Figure> least, Optional<Figure> most) {
    if (least.isPresent() && most.isPresent() && least.get().value() >= most.get().value()) {
      form.wrong(row, key, "less than the most, " + most.get().value(), "" + least.get().value());
    }
  }

  private Optional<Figure> figure(Section row, String key, double most, Provenance provenance) {
    return row.contains(key)
        ? Optional.of(new Figure(form.number(row, key, most), provenance))
        : Optional.empty();
  }

  private Provenance with(
      Provenance of, Section row, String key, String seenKey, String standardKey) {
    String word = form.text(row, key, true);
    Optional<Confidence> confidence = Confidence.ofId(word);
    if (confidence.isEmpty() && !word.isEmpty()) {
      form.wrong(row, key, "two-sources, one-source, memory or owner", word);
    }
    Confidence how = confidence.orElse(Confidence.MEMORY);
    String seen = seenKey.isEmpty() ? of.seenIn() : form.text(row, seenKey, true);
    String standard = form.text(row, standardKey, false);
    return new Provenance(
        standard.isEmpty() ? of.standard() : standard,
        of.edition(),
        standard.isEmpty() ? of.clause() : "",
        how,
        how == Confidence.MEMORY ? Confidence.MEMORY.id() : seen);
  }

  private Set<FibreCategory> categories(Section row) {
    Set<FibreCategory> found = EnumSet.noneOf(FibreCategory.class);
    if (row.get("fibre") instanceof List<?> labels) {
      for (Object label : labels) {
        FibreCategory.ofLabel(String.valueOf(label))
            .ifPresentOrElse(
                found::add,
                () -> form.wrong(row, "fibre", "OM1 to OM5, OS1, OS1a or OS2", "" + label));
      }
    }
    if (!(row.get("fibre") instanceof List<?> given) || given.isEmpty()) {
      form.wrong(row, "fibre", "a list of fibre categories", String.valueOf(row.get("fibre")));
    }
    return found;
  }

  private List<Wavelength> wavelengths(Section row) {
    List<Wavelength> found = new ArrayList<>();
    if (row.get("wavelengths_nm") instanceof List<?> values) {
      for (Object value : values) {
        if (value instanceof Long nm
            && nm >= Wavelength.SHORTEST_NM
            && nm <= Wavelength.LONGEST_NM) {
          found.add(new Wavelength(nm.intValue()));
        } else {
          form.wrong(row, "wavelengths_nm", "whole nanometres, 600 to 1700", "" + value);
        }
      }
    }
    if (!(row.get("wavelengths_nm") instanceof List<?> given) || given.isEmpty()) {
      form.wrong(
          row,
          "wavelengths_nm",
          "a list of wavelengths",
          String.valueOf(row.get("wavelengths_nm")));
    }
    return found;
  }
}
