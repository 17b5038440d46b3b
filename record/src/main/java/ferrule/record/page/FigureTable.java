package ferrule.record.page;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.Part;
import ferrule.core.allowance.Term;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.FigureGroup;
import ferrule.core.rulebook.Provenance;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Judgement;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Figures of one sort, with their sources.
 *
 * @param title what they are
 * @param rows one for each figure
 */
public record FigureTable(String title, List<Row> rows) {

  /**
   * One figure.
   *
   * @param what case that it holds for
   * @param value number with its unit, and its spread if it has one
   * @param source where it comes from
   */
  public record Row(String what, String value, Provenance source) {

    /** Document, edition and clause, as far as known. */
    public String document() {
      List<String> parts = new ArrayList<>();
      for (String part : List.of(source.standard(), source.edition(), source.clause())) {
        if (!part.isEmpty()) {
          parts.add(part);
        }
      }
      return String.join(", ", parts);
    }
  }

  /** Copies the list. */
  public FigureTable {
    rows = List.copyOf(rows);
  }

  /** Whether a figure of it is from memory. */
  public boolean anyFromMemory() {
    return rows.stream().anyMatch(r -> r.source().fromMemory());
  }

  /** The figures that the limits and expectations of a job's readings were made of. */
  public static List<FigureTable> used(Judgement judgement) {
    Map<Part, SortedSet<Wavelength>> limits = new LinkedHashMap<>();
    Map<Part, SortedSet<Wavelength>> expected = new LinkedHashMap<>();
    Set<Allowance> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    for (AssessedReading reading : judgement.ledger().readings()) {
      Allowance allowance = reading.allowance().orElse(null);
      if (allowance != null && seen.add(allowance)) {
        for (Term term : allowance.limitTerms().terms()) {
          note(limits, term, reading);
        }
        for (Term term : allowance.expectedTerms().terms()) {
          note(expected, term, reading);
        }
      }
    }
    List<FigureTable> tables = new ArrayList<>();
    add(tables, "Limits: the most that a part may lose", limits);
    add(tables, "Expectations: what good work usually loses, never a limit", expected);
    return tables;
  }

  private static void note(
      Map<Part, SortedSet<Wavelength>> parts, Term term, AssessedReading reading) {
    parts.computeIfAbsent(term.part(), k -> new TreeSet<>()).add(reading.reading().wavelength());
  }

  private static void add(
      List<FigureTable> tables, String title, Map<Part, SortedSet<Wavelength>> parts) {
    if (parts.isEmpty()) {
      return;
    }
    Map<String, Long> alike =
        parts.keySet().stream().collect(Collectors.groupingBy(Part::what, Collectors.counting()));
    List<Row> rows = new ArrayList<>();
    parts.keySet().stream()
        .sorted(Comparator.comparing(Part::what).thenComparingDouble(Part::eachDb))
        .forEach(
            part ->
                rows.add(
                    new Row(
                        what(part, parts, alike),
                        Show.db(part.eachDb())
                            + (part.eachSdDb() > 0 ? " ± " + Show.db(part.eachSdDb()) : "")
                            + (part.unit().equals("km") ? " dB/km" : " dB"),
                        part.source())));
    tables.add(new FigureTable(title, rows));
  }

  /** A part's name; with the wavelengths it was used at if others have the same name. */
  private static String what(
      Part part, Map<Part, SortedSet<Wavelength>> parts, Map<String, Long> alike) {
    String name = Show.sentence(part.what()).replaceAll("\\.$", "");
    return alike.getOrDefault(part.what(), 1L) == 1
        ? name
        : name
            + ", at "
            + parts.getOrDefault(part, new TreeSet<>()).stream()
                .map(Wavelength::toString)
                .collect(Collectors.joining(", "));
  }

  /** Every figure of a rulebook, used in this job or not. */
  public static List<FigureTable> all(Rulebook rulebook) {
    return FigureGroup.of(rulebook).stream()
        .map(
            group ->
                new FigureTable(
                    group.title(),
                    group.rows().stream().map(row -> row(row, group.unit())).toList()))
        .toList();
  }

  private static Row row(FigureGroup.Row row, String unit) {
    Figure figure = row.figure();
    return new Row(row.what(), Show.db(figure.value()) + " " + unit, figure.provenance());
  }
}
