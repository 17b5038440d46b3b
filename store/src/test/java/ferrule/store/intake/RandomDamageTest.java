package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.store.Fixtures;
import ferrule.store.Judged;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import ferrule.store.job.StoredJob;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A good folder, spoilt at random a few hundred times over: nothing throws, and every row ends as
 * an understood one or as a listed problem.
 */
class RandomDamageTest {

  private static final List<String> JUNK =
      List.of(
          "\"",
          ",",
          ";",
          "\n",
          "\r\n",
          "\0",
          "\u00e9",
          "\u2212",
          "=1+1",
          "NaN",
          "1e400",
          "  ",
          "\t",
          "9".repeat(40),
          "A-B",
          "2026-02-30T10:00:00Z",
          "\uD83D\uDD0C",
          "\u202e",
          "#REF!",
          "B");

  private final Path temp;

  RandomDamageTest(@TempDir Path temp) {
    this.temp = temp;
  }

  /** Rows in a text without quotes: lines that hold more than white space and separators. */
  private static long rowsOf(String text, char separator) {
    return text.lines()
            .filter(line -> !line.replace(separator, ' ').replace('\u00a0', ' ').isBlank())
            .count()
        - 1;
  }

  private static String spoil(String text, SplittableRandom random) {
    StringBuilder spoilt = new StringBuilder(text);
    for (int spoils = random.nextInt(1, 5); spoils > 0 && !spoilt.isEmpty(); spoils--) {
      int at = random.nextInt(spoilt.length());
      int end = Math.min(spoilt.length(), at + random.nextInt(1, 60));
      switch (random.nextInt(6)) {
        case 0 -> spoilt.insert(at, JUNK.get(random.nextInt(JUNK.size())));
        case 1 -> spoilt.delete(at, end);
        case 2 -> spoilt.insert(at, spoilt.substring(at, end));
        case 3 -> spoilt.setCharAt(at, (char) random.nextInt(1, 0x250));
        case 4 -> {
          int line = spoilt.indexOf("\n", at);
          spoilt.insert(line + 1, spoilt.substring(0, Math.max(0, line + 1)));
        }
        default -> spoilt.setLength(at);
      }
    }
    return spoilt.toString();
  }

  @Test
  void everyRowOfASpoiltFolderIsAccountedFor() throws IOException, JobFileException {
    SplittableRandom random = new SplittableRandom(20260311);
    int whole = 0;
    int judged = 0;
    for (int i = 0; i < 80; i++) {
      Path folder = Fixtures.mill(temp);
      for (Path file : Fixtures.files(folder)) {
        if (!Fixtures.fileName(file).equals("job.toml") && random.nextInt(3) == 0) {
          Files.writeString(file, spoil(Files.readString(file), random));
        }
      }
      JobFolder read = JobFolder.read(folder, Purpose.STORE);
      for (TableFile table : read.tables()) {
        assertAccounted(table, folder.resolve(table.name()));
      }
      JobFolder.Assembled assembled = read.assemble();
      assertThat(assembled.job().isPresent()).isEqualTo(read.whole());
      assertThat(assembled.problems())
          .allMatch(p -> p.line().chars().noneMatch(Character::isISOControl));
      if (!read.whole()) {
        assertThat(assembled.problems()).isNotEmpty();
        continue;
      }
      whole++;
      assertEachReadingIsThereOrListed(read, assembled);
      if (whole % 5 == 0) {
        judged++;
        assertStoredIsTheSame(read, assembled);
      }
    }
    assertThat(whole).isBetween(10, 75);
    assertThat(judged).isGreaterThan(1);
  }

  private static void assertAccounted(TableFile table, Path file) throws IOException {
    Set<Long> bad = new HashSet<>();
    table.problems().forEach(problem -> bad.add(problem.row()));
    for (int i = 0; i < table.rows().size(); i++) {
      assertThat(bad).doesNotContain((long) table.rowNumbers().get(i));
    }
    assertThat(table.rows().size() + bad.size()).isEqualTo((int) table.rowCount());
    String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    if (text.indexOf('"') < 0 && text.indexOf('\u2028') < 0) {
      char separator = CsvTable.separator(text.getBytes(StandardCharsets.UTF_8));
      assertThat(table.rowCount()).as(text).isEqualTo(rowsOf(text, separator));
    }
  }

  private static void assertEachReadingIsThereOrListed(
      JobFolder read, JobFolder.Assembled assembled) {
    Job job = assembled.job().orElseThrow();
    for (TableFile table : read.tables()) {
      if (table.kind() == TableKind.READINGS) {
        long listed =
            assembled.problems().stream()
                .filter(problem -> problem.file().equals(table.name()))
                .map(Problem::row)
                .distinct()
                .count();
        assertThat(job.readings().size() + listed).isEqualTo(table.rowCount());
      }
    }
  }

  private void assertStoredIsTheSame(JobFolder read, JobFolder.Assembled assembled)
      throws IOException, JobFileException {
    Path path = temp.resolve("spoilt.ferrule");
    Files.deleteIfExists(path);
    JobFile.create(
            path,
            new Batch(read.paper(), read.tables(), read.fileNotes()),
            Clock.systemUTC(),
            new Random(1),
            rows -> {})
        .files()
        .forEach(
            file ->
                assertThat(file.entered() + file.superseding() + file.repeated() + file.unused())
                    .isEqualTo(file.rows()));
    try (JobFile file = JobFile.open(path, Clock.systemUTC(), new Random(2))) {
      StoredJob stored = file.load();
      Job job = assembled.job().orElseThrow();
      assertThat(stored.job()).isEqualTo(job);
      assertThat(stored.problems()).containsExactlyInAnyOrderElementsOf(assembled.problems());
      assertThat(Judged.lines(stored.job())).isEqualTo(Judged.lines(job));
    }
  }

  @Test
  void spoiltBytesNeverThrow() throws IOException {
    SplittableRandom random = new SplittableRandom(8);
    byte[] good = Files.readAllBytes(Fixtures.path("folders/mill/readings.csv"));
    Path file = temp.resolve("readings.csv");
    int refused = 0;
    for (int i = 0; i < 400; i++) {
      byte[] spoilt = good.clone();
      for (int spoils = random.nextInt(1, 4); spoils > 0; spoils--) {
        spoilt[random.nextInt(spoilt.length)] = (byte) random.nextInt(256);
      }
      Files.write(file, spoilt);
      TableReader.Outcome outcome =
          TableReader.read(file, "readings.csv", Optional.empty(), Purpose.STORE);
      assertThat(outcome.tables().size() + Math.min(1, outcome.problems().size())).isEqualTo(1);
      if (outcome.tables().isEmpty()) {
        refused++;
      } else {
        assertAccounted(outcome.tables().get(0), file);
      }
    }
    assertThat(refused).isBetween(80, 380);
  }
}
