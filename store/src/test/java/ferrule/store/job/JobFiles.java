package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.intake.TableFile;
import ferrule.store.intake.TableReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** Job files for tests: the same clock and the same ids every time. */
final class JobFiles {

  /** When every test takes place. */
  static final Clock CLOCK = Clock.fixed(Instant.parse("2026-10-06T07:00:00Z"), ZoneOffset.UTC);

  private JobFiles() {}

  /** All of a folder. */
  static Batch batch(Path folder) {
    JobFolder read = JobFolder.read(folder, Purpose.STORE);
    if (!read.whole()) {
      throw new IllegalArgumentException(read.problems().toString());
    }
    return new Batch(read.paper(), read.tables(), read.fileNotes());
  }

  /** Some tables, shown by their file names. */
  static Batch tables(Path... files) {
    List<TableFile> tables = new ArrayList<>();
    for (Path file : files) {
      TableReader.Outcome outcome =
          TableReader.read(
              file, String.valueOf(file.getFileName()), Optional.empty(), Purpose.STORE);
      if (!outcome.problems().isEmpty()) {
        throw new IllegalArgumentException(outcome.problems().toString());
      }
      tables.addAll(outcome.tables());
    }
    return new Batch(Optional.empty(), tables, List.of());
  }

  static AddOutcome create(Path path, Path folder) throws JobFileException {
    return JobFile.create(path, batch(folder), CLOCK, new Random(1), rows -> {});
  }

  static JobFile open(Path path) throws JobFileException {
    return JobFile.open(path, CLOCK, new Random(2));
  }

  static AddOutcome add(Path path, Batch batch) throws JobFileException {
    return add(path, batch, Optional.empty());
  }

  static AddOutcome add(Path path, Batch batch, Optional<String> supersede)
      throws JobFileException {
    try (JobFile file = open(path)) {
      return file.add(batch, supersede, rows -> {});
    }
  }

  static StoredJob load(Path path) throws JobFileException {
    try (JobFile file = open(path)) {
      return file.load();
    }
  }

  /** The line of the refusal that must come of loading a file. */
  static String refusal(Path path) {
    try {
      load(path);
    } catch (JobFileException e) {
      return line(e);
    }
    throw new AssertionError(path + " was not refused");
  }

  /** The line shown for a refusal: one line, with something to do. */
  static String line(JobFileException refused) {
    Problem problem = refused.problem();
    String line = problem.line();
    if (line.indexOf('\n') >= 0 || problem.action().isEmpty() || problem.found().isEmpty()) {
      throw new AssertionError("not one clear line: " + line);
    }
    return line;
  }

  static List<String> lines(List<Problem> problems) {
    return problems.stream().map(Problem::line).toList();
  }

  /** Changes a job file behind Ferrule's back. */
  static void sql(Path path, String... statements) throws SQLException {
    try (Connection connection = connect(path);
        Statement statement = connection.createStatement()) {
      for (String sql : statements) {
        statement.execute(sql);
      }
    }
  }

  static Connection connect(Path path) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + path.toAbsolutePath());
  }

  /** The rows of a query, cells joined by "|". */
  static List<String> query(Path path, String sql) throws SQLException {
    try (Connection connection = connect(path);
        Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<String> found = new ArrayList<>();
      while (rows.next()) {
        String[] cells = new String[rows.getMetaData().getColumnCount()];
        for (int i = 0; i < cells.length; i++) {
          cells[i] = String.valueOf(rows.getString(i + 1));
        }
        found.add(String.join("|", Arrays.asList(cells)));
      }
      return found;
    }
  }

  /** Every file of a folder but the ones named. */
  static List<String> others(Path folder, String... names) throws java.io.IOException {
    try (var list = Files.list(folder)) {
      return list.map(p -> String.valueOf(p.getFileName()))
          .filter(n -> !Arrays.asList(names).contains(n))
          .sorted()
          .toList();
    }
  }
}
