package ferrule.store.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The tables of a job folder, and one that stands alone, with their columns. The names are a
 * contract: add, never rename.
 */
@SuppressWarnings("ImmutableEnumChecker") // its lists are copies that nobody can change
public enum TableKind {
  /** What was to be built. */
  LINKS(
      "links",
      List.of("link", "fibre_category", "fibres", "length_m", "a_connector", "b_connector"),
      List.of(
          "a_place", "a_port", "b_place", "b_port", "connections", "splices", "devices", "fed_by")),
  /** Sources and meters. */
  INSTRUMENTS(
      "instruments",
      List.of("instrument", "kind"),
      List.of("wavelengths_nm", "calibrated_on", "calibration_due")),
  /** Test cords. */
  CORDS(
      "cords",
      List.of("cord", "fibre_category"),
      List.of(
          "length_m",
          "end1_connector",
          "end1_grade",
          "end2_connector",
          "end2_grade",
          "matings",
          "in_service_since")),
  /** Zeros, one row a direction and wavelength. */
  REFERENCES(
      "references",
      List.of("reference", "set_at", "method", "direction", "wavelength_nm", "power_dbm"),
      List.of(
          "source",
          "meter",
          "launch_cord",
          "receive_cord",
          "substitution_cord",
          "fibre_category",
          "verification_db",
          "operator")),
  /** Losses read. */
  READINGS(
      "readings",
      List.of("link", "fibre", "direction", "wavelength_nm", "reference", "measured_at"),
      List.of("power_dbm", "loss_db", "length_m", "operator")),
  /** Pictures of end faces. */
  FACES("faces", List.of("picture", "subject"), List.of("stage", "class", "taken_at", "operator")),
  /** What array links are made of. */
  PARTS(
      "parts",
      List.of("link", "order", "part", "kind", "positions", "map"),
      List.of("array_at", "a_pins", "a_key", "a_polish", "b_pins", "b_key", "b_polish")),
  /** Where positions of array links came out. */
  POLARITY("polarity", List.of("link", "position", "arrives_at"), List.of("after")),
  /** Losses of mated cord ends, for cord isolation; no part of a job. */
  MATINGS("matings", List.of("ends", "loss_db"), List.of("wavelength_nm", "sd_db", "measured_at"));

  private final String stem;
  private final List<String> required;
  private final List<String> columns;

  TableKind(String stem, List<String> required, List<String> optional) {
    this.stem = stem;
    this.required = List.copyOf(required);
    List<String> all = new ArrayList<>(required);
    all.addAll(optional);
    this.columns = List.copyOf(all);
  }

  /** File name without its ending: "links". */
  public String stem() {
    return stem;
  }

  /** Whether it is a table of a job folder. */
  public boolean inJob() {
    return this != MATINGS;
  }

  /** Columns that must be there. */
  public List<String> required() {
    return required;
  }

  /** Every column, required ones first. */
  public List<String> columns() {
    return columns;
  }

  /** The table of a job with this file name, folders and ending aside, upper or lower case. */
  public static Optional<TableKind> ofFileName(String name) {
    String stem = name.replaceAll(".*[/\\\\]", "").replaceFirst("\\.[^.]*$", "");
    for (TableKind kind : values()) {
      if (kind.inJob() && kind.stem.equals(stem.toLowerCase(Locale.ROOT))) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }

  /**
   * The only table of a job all of whose required columns are in the header; empty if there is none
   * or more than one.
   */
  public static Optional<TableKind> ofHeader(List<String> names) {
    TableKind found = null;
    for (TableKind kind : values()) {
      if (kind.inJob() && names.containsAll(kind.required)) {
        if (found != null) {
          return Optional.empty();
        }
        found = kind;
      }
    }
    return Optional.ofNullable(found);
  }
}
