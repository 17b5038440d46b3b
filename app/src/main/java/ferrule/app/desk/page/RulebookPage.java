package ferrule.app.desk.page;

import ferrule.core.job.Requirement;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The figures a job is judged by, with their sources.
 *
 * @param frame what surrounds it
 * @param requirement what must be met, and the rulebook
 * @param tables the figures
 */
public record RulebookPage(Frame frame, Requirement requirement, List<Table> tables) {

  /**
   * Figures of one kind.
   *
   * @param id name for an anchor
   * @param title what they limit
   * @param unit of the figures
   * @param rows one for each figure
   */
  public record Table(String id, String title, String unit, List<Row> rows) {}

  /**
   * One figure.
   *
   * @param what case that it holds for
   * @param figure number and source
   */
  public record Row(String what, Figure figure) {}

  /** Puts the page together. */
  public static RulebookPage of(String jobName, JobIndex index) {
    Requirement requirement = index.judgement().ledger().requirement();
    Rulebook rulebook = requirement.rulebook();
    List<Table> tables = new ArrayList<>();
    add(
        tables,
        "fibre",
        "Most attenuation of cabled fibre",
        "dB/km",
        rulebook.fibre().entrySet().stream()
            .sorted(
                Comparator.comparing(
                        (java.util.Map.Entry<Rulebook.FibreKey, Figure> e) -> e.getKey().category())
                    .thenComparing(e -> e.getKey().wavelength()))
            .map(
                e ->
                    new Row(
                        e.getKey().category().label() + " at " + e.getKey().wavelength(),
                        e.getValue()))
            .toList());
    add(
        tables,
        "ends",
        "Most loss of an end connection, by the test cord's plug",
        "dB",
        rulebook.end().entrySet().stream()
            .sorted(
                Comparator.comparing(
                        (java.util.Map.Entry<Rulebook.EndKey, Figure> e) -> e.getKey().kind())
                    .thenComparing(e -> e.getKey().cord()))
            .map(
                e ->
                    new Row(
                        e.getKey().kind().word() + ", " + e.getKey().cord().word() + "-grade cord",
                        e.getValue()))
            .toList());
    add(
        tables,
        "inner",
        "Most loss of a connection inside the link",
        "dB",
        byKey(rulebook.inner()));
    add(
        tables,
        "pair",
        "Most loss of two reference-grade plugs mated",
        "dB",
        byKey(rulebook.referencePair()));
    add(tables, "splice", "Most loss of a splice", "dB", byKey(rulebook.splice()));
    add(tables, "device", "Most loss of a device", "dB", byKey(rulebook.device()));
    return new RulebookPage(
        new Frame(jobName, Frame.Section.RULEBOOK, "Rulebook"), requirement, tables);
  }

  private static <K extends Comparable<K>> List<Row> byKey(java.util.Map<K, Figure> figures) {
    return figures.entrySet().stream()
        .sorted(java.util.Map.Entry.comparingByKey())
        .map(
            e ->
                new Row(
                    e.getKey() instanceof ferrule.core.optics.FibreKind kind
                        ? kind.word()
                        : e.getKey().toString(),
                    e.getValue()))
        .toList();
  }

  private static void add(
      List<Table> tables, String id, String title, String unit, List<Row> rows) {
    if (!rows.isEmpty()) {
      tables.add(new Table(id, title, unit, rows));
    }
  }
}
