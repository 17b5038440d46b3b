package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.store.Children;
import ferrule.store.Fixtures;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A process killed without warning while it writes. */
class JobFileKillTest {

  private static final int ROWS = 5_000;
  private static final int LINES = ROWS / 1_000;

  private final Path temp;
  private final SplittableRandom random = new SplittableRandom(1912);
  private Path folder = Path.of("");

  JobFileKillTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void makeManyReadings() throws IOException {
    folder = Fixtures.mill(temp);
    StringBuilder text =
        new StringBuilder(
            "link,fibre,direction,wavelength_nm,loss_db,reference,measured_at,operator\n");
    for (int i = 1; i <= ROWS; i++) {
      text.append("L01,").append(i).append(",A-B,1310,0.31,R1,2026-10-05T11:00:00Z,Finch\n");
    }
    Files.writeString(temp.resolve("readings.csv"), text.toString());
  }

  /** Lets the program say "ready" and some more lines, and kills it then or a little later. */
  private void runAndKill(int lines, Path path, Path from) throws Exception {
    Process process = Children.start(TakeIn.class, 256, path.toString(), from.toString());
    try (BufferedReader said =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      assertThat(said.readLine()).isEqualTo("ready");
      for (int i = 0; i < lines; i++) {
        if (said.readLine() == null) {
          break;
        }
      }
      Thread.sleep(random.nextInt(12));
    } finally {
      process.destroyForcibly().waitFor();
    }
  }

  @Test
  void afterAKillTheJobFileHoldsAllOfTheBatchOrNothing() throws Exception {
    Path path = temp.resolve("mill.ferrule");
    JobFiles.create(path, folder);
    long before = JobFiles.load(path).entries();
    String head = JobFiles.load(path).head();
    int nothing = 0;
    for (int i = 0; i < 10; i++) {
      Path victim = temp.resolve("victim" + i + ".ferrule");
      Files.copy(path, victim);
      // Two of ten live to the last line, when all is stored or about to be.
      int lines = i < 8 ? random.nextInt(LINES) : LINES + i - 8;
      runAndKill(lines, victim, temp.resolve("readings.csv"));
      StoredJob after = JobFiles.load(victim);
      if (after.entries() == before) {
        assertThat(after.head()).isEqualTo(head);
        nothing++;
      } else {
        assertThat(after.entries()).isEqualTo(before + ROWS + 1);
      }
      AddOutcome again = JobFiles.add(victim, JobFiles.tables(temp.resolve("readings.csv")));
      assertThat(again.files().get(0).entered() + again.files().get(0).repeated()).isEqualTo(ROWS);
      assertThat(JobFiles.load(victim).entries()).isEqualTo(before + ROWS + 1);
    }
    assertThat(nothing).isGreaterThan(3);
  }

  @Test
  void aKillWhileAJobFileIsMadeLeavesNoFileUnderItsName() throws Exception {
    Files.copy(
        temp.resolve("readings.csv"),
        folder.resolve("readings.csv"),
        StandardCopyOption.REPLACE_EXISTING);
    for (int i = 0; i < 3; i++) {
      String name = "made" + i + ".ferrule";
      Path path = temp.resolve(name);
      runAndKill(random.nextInt(LINES), path, folder);
      if (Files.exists(path)) {
        assertThat(JobFiles.load(path).job().readings()).hasSize(ROWS);
      }
      assertThat(JobFiles.others(temp))
          .filteredOn(left -> left.contains(name))
          .allMatch(left -> left.startsWith(".") || left.equals(name));
      Files.deleteIfExists(path);
      assertThat(JobFiles.create(path, folder).entered()).isGreaterThan(ROWS);
    }
  }
}
