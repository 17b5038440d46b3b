package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.store.Fixtures;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OpenLogTest {

  private final Path temp;
  private Path path = Path.of("");

  OpenLogTest(@TempDir Path temp) {
    this.temp = temp;
  }

  /** A job with a correction and a repeat, so that what is superseded is there to be kept. */
  @BeforeEach
  void makeTheMillWithACorrection() throws JobFileException, IOException {
    path = temp.resolve("mill.ferrule");
    JobFiles.create(path, Fixtures.mill(temp));
    Path links = temp.resolve("mill").resolve("links.csv");
    Path other = Files.createDirectories(temp.resolve("more")).resolve("links.csv");
    List<String> rows = Files.readAllLines(links);
    Files.writeString(other, rows.get(0) + "\n" + rows.get(1).replace(",180,", ",77.5,") + "\n");
    JobFiles.add(path, JobFiles.tables(other), Optional.of("measured with a wheel"));
  }

  private static String text(Path path, long most) throws JobFileException, IOException {
    try (JobFile file = JobFiles.open(path)) {
      StringWriter out = new StringWriter();
      file.writeEntries(out, most);
      return out.toString();
    }
  }

  private static WrittenJob read(String text) throws JobFileException, IOException {
    return OpenLog.read("entries.jsonl", new BufferedReader(new StringReader(text)));
  }

  @Test
  void theJobReadFromItsOpenTextIsTheJobOfTheFile() throws Exception {
    StoredJob stored = JobFiles.load(path);
    String text = text(path, Long.MAX_VALUE);
    assertThat(text.lines()).hasSize((int) stored.entries());
    WrittenJob open = read(text);
    assertThat(open.stored()).isEqualTo(stored);
    assertThat(open.paper()).isEqualTo(Files.readString(temp.resolve("mill/job.toml")));
    assertThat(open.rulebook()).contains("[[fibre]]");
  }

  @Test
  void whatWasCorrectedIsThereWithTheReason() throws Exception {
    String corrected =
        text(path, Long.MAX_VALUE)
            .lines()
            .filter(line -> line.contains("measured with a wheel"))
            .collect(Collectors.joining());
    assertThat(corrected).contains("\"supersedes\":2,").contains("77.5");
    assertThat(text(path, Long.MAX_VALUE).lines().skip(1).findFirst().orElse(""))
        .contains("\"seq\":2,")
        .contains("\"kind\":\"link\"");
  }

  @Test
  void theTextEndsWhereTheLoadedJobEnds() throws Exception {
    assertThat(text(path, 3).lines()).hasSize(3);
  }

  @Test
  void aChangedCharacterIsNamedWithItsLine() throws Exception {
    String text = text(path, Long.MAX_VALUE);
    int line = 1;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (i % 41 != 0 && c != '\n') {
        continue; // reading anew for each takes its time; the record's test flips bits at random
      }
      String changed = text.substring(0, i) + (char) (c ^ 1) + text.substring(i + 1);
      int at = line;
      assertThatThrownBy(() -> read(changed))
          .as("character %d, %s", i, c)
          .isInstanceOfSatisfying(
              JobFileException.class,
              e -> {
                assertThat(e.problem().file()).isEqualTo("entries.jsonl");
                assertThat(e.problem().row()).isEqualTo(at);
              });
      if (c == '\n') {
        line++;
      }
    }
  }

  @Test
  void linesTakenOutAddedOrTurnedAroundAreNamed() throws Exception {
    List<String> lines = text(path, Long.MAX_VALUE).lines().toList();
    String without = lines.get(0) + "\n" + lines.get(2) + "\n";
    assertThatThrownBy(() -> read(without))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("entry 3 where entry 2 belongs");
    String twice = lines.get(0) + "\n" + lines.get(0) + "\n";
    assertThatThrownBy(() -> read(twice)).isInstanceOf(JobFileException.class);
    assertThatThrownBy(() -> read(lines.get(0) + "\n\n"))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("an empty line");
    assertThatThrownBy(() -> read(lines.get(0)))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("a line without its end");
    assertThatThrownBy(() -> read("")).isInstanceOf(JobFileException.class);
  }
}
