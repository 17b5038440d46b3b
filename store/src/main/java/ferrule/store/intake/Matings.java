package ferrule.store.intake;

import ferrule.core.Problem;
import ferrule.core.isolation.EndId;
import ferrule.core.isolation.Isolator;
import ferrule.core.isolation.PathReading;
import ferrule.core.optics.Wavelength;
import ferrule.store.intake.TableRow.MatingRow;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Loss readings of mated cord ends, from one table.
 *
 * @param readings of the rows that could be used
 * @param problems one line for whatever could not be used
 * @param notes what a reader should know besides, each a sentence
 */
public record Matings(List<PathReading> readings, List<Problem> problems, List<String> notes) {

  /** Copies the lists. */
  public Matings {
    readings = List.copyOf(readings);
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
  }

  /**
   * Reads a table, CSV or XLSX.
   *
   * @param name name to show in problems
   */
  public static Matings read(Path path, String name) {
    if (!TableReader.reads(name)) {
      return unusable(
          new Problem(
              name,
              0,
              "",
              "a table of matings, .csv or .xlsx",
              "another kind of file",
              "hand in one of these"));
    }
    TableReader.Outcome outcome =
        TableReader.read(path, name, Optional.of(TableKind.MATINGS), Purpose.JUDGE);
    List<Problem> problems = new ArrayList<>(outcome.problems());
    List<PathReading> readings = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    for (TableFile table : outcome.tables()) {
      problems.addAll(table.problems());
      notes.addAll(JobFolder.notes(table));
      for (TableRow row : table.rows()) {
        if (row instanceof MatingRow mating) {
          readings.add(mating.reading());
        }
      }
      if (table.rowCount() == 0) {
        problems.add(
            new Problem(name, 0, "", "a row for each reading", "no rows", "add the readings"));
      }
    }
    Optional<Problem> tooMany = tooMany(name, readings);
    if (tooMany.isPresent()) {
      problems.add(tooMany.get());
      return new Matings(List.of(), problems, notes);
    }
    return new Matings(readings, problems, notes);
  }

  private static Matings unusable(Problem problem) {
    return new Matings(List.of(), List.of(problem), List.of());
  }

  private static Optional<Problem> tooMany(String name, List<PathReading> readings) {
    Map<Optional<Wavelength>, Set<EndId>> ends = new HashMap<>();
    Map<Optional<Wavelength>, Integer> counts = new HashMap<>();
    for (PathReading reading : readings) {
      counts.merge(reading.wavelength(), 1, Integer::sum);
      ends.computeIfAbsent(reading.wavelength(), k -> new HashSet<>())
          .addAll(reading.path().ends());
    }
    int mostReadings = counts.values().stream().mapToInt(c -> c).max().orElse(0);
    int mostEnds = ends.values().stream().mapToInt(Set::size).max().orElse(0);
    return mostReadings <= Isolator.MOST_READINGS && mostEnds <= Isolator.MOST_ENDS
        ? Optional.empty()
        : Optional.of(
            new Problem(
                name,
                0,
                "",
                "at most "
                    + Isolator.MOST_READINGS
                    + " readings of "
                    + Isolator.MOST_ENDS
                    + " cord ends at one wavelength",
                mostReadings + " readings of " + mostEnds + " ends",
                "split the table by sets of cords"));
  }
}
