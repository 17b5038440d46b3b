package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.store.Fixtures;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Damaged, odd and hostile tables that are kept under {@code tables}, each beside a text of the
 * same name with what must come of it, line by line.
 */
class KeptTablesTest {

  private static final String SAME = "the rows of ";

  @TestFactory
  Stream<DynamicTest> eachRowOfAKeptTableEndsAsTheTextBesideItSays() {
    return Fixtures.files(Fixtures.path("tables")).stream()
        .filter(file -> !Fixtures.fileName(file).endsWith(".txt"))
        .map(file -> DynamicTest.dynamicTest(Fixtures.fileName(file), () -> check(file)));
  }

  private static void check(Path file) throws IOException {
    Path beside = file.resolveSibling(Fixtures.fileName(file) + ".txt");
    TableReader.Outcome outcome = read(file);
    List<String> found = found(outcome);
    List<String> expected = new ArrayList<>(Files.readAllLines(beside));
    if (expected.get(expected.size() - 1).startsWith(SAME)) {
      String other = expected.remove(expected.size() - 1).substring(SAME.length());
      assertThat(rows(outcome)).isEqualTo(rows(read(file.resolveSibling(other)))).isNotEmpty();
    }
    assertThat(found).isEqualTo(expected);
    assertEachRowIsAccountedFor(outcome);
    assertProblemsAreClear(outcome);
  }

  private static TableReader.Outcome read(Path file) {
    String name = Fixtures.fileName(file);
    return TableReader.read(file, name, TableKind.ofFileName(stem(name) + ".csv"), Purpose.JUDGE);
  }

  private static String stem(String name) {
    return name.substring(0, name.indexOf('.'));
  }

  private static List<TableRow> rows(TableReader.Outcome outcome) {
    return outcome.tables().stream().flatMap(table -> table.rows().stream()).toList();
  }

  private static List<String> found(TableReader.Outcome outcome) {
    List<String> lines = new ArrayList<>();
    for (TableFile table : outcome.tables()) {
      lines.add("rows " + table.rowCount() + ", understood " + table.rows().size());
      lines.addAll(JobFolder.notes(table));
      table.problems().forEach(problem -> lines.add(problem.line()));
    }
    if (outcome.tables().isEmpty()) {
      lines.add("no table");
    }
    outcome.problems().forEach(problem -> lines.add(problem.line()));
    return lines;
  }

  private static void assertEachRowIsAccountedFor(TableReader.Outcome outcome) {
    for (TableFile table : outcome.tables()) {
      Set<Long> bad = new HashSet<>();
      for (Problem problem : table.problems()) {
        assertThat(bad.add(problem.row())).as("one line for " + problem.line()).isTrue();
      }
      for (int i = 0; i < table.rows().size(); i++) {
        assertThat(bad).doesNotContain((long) table.rowNumbers().get(i));
      }
      assertThat(table.rows().size() + bad.size()).isEqualTo((int) table.rowCount());
    }
    assertThat(outcome.tables().isEmpty()).isEqualTo(!outcome.problems().isEmpty());
  }

  private static void assertProblemsAreClear(TableReader.Outcome outcome) {
    List<Problem> all = new ArrayList<>(outcome.problems());
    outcome.tables().forEach(table -> all.addAll(table.problems()));
    for (Problem problem : all) {
      assertThat(problem.line()).hasSizeLessThan(500).doesNotContainPattern("\\p{Cntrl}");
      assertThat(List.of(problem.file(), problem.expected(), problem.found(), problem.action()))
          .as(problem.line())
          .doesNotContain("");
    }
  }

  /** Files that nobody named after a table are told by their columns. */
  @TestFactory
  Stream<DynamicTest> aTableOfAnyNameIsToldByItsColumns() {
    return Stream.of("links.words.csv", "cords.words.csv", "readings.plain.csv", "faces.words.csv")
        .map(
            name ->
                DynamicTest.dynamicTest(
                    name,
                    () -> {
                      Path file = Fixtures.path("tables/" + name);
                      TableReader.Outcome outcome =
                          TableReader.read(file, "handed-in.csv", Optional.empty(), Purpose.JUDGE);
                      assertThat(outcome.problems()).isEmpty();
                      assertThat(outcome.tables().get(0).kind().stem()).isEqualTo(stem(name));
                    }));
  }
}
