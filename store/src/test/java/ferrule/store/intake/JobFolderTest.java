package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.store.Fixtures;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobFolderTest {

  private final Path temp;
  private Path folder = Path.of("");

  JobFolderTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void copyTheMill() {
    folder = Fixtures.mill(temp);
  }

  private JobFolder read() {
    return JobFolder.read(folder, Purpose.JUDGE);
  }

  private void assertRefused(String... lines) {
    JobFolder.Assembled assembled = read().assemble();
    assertThat(assembled.job()).isEmpty();
    assertThat(assembled.problems()).extracting(Problem::line).containsExactly(lines);
  }

  private Job assertUsed(String... lines) {
    JobFolder.Assembled assembled = read().assemble();
    assertThat(assembled.problems()).extracting(Problem::line).containsExactly(lines);
    return assembled.job().orElseThrow();
  }

  @Test
  void theWholeFolderIsAJobWithoutProblemsOrNotes() {
    JobFolder read = read();
    assertThat(read.whole()).isTrue();
    assertThat(read.fileNotes()).isEmpty();
    Job job = assertUsed();
    assertThat(job.links()).hasSize(3);
    assertThat(job.instruments()).hasSize(3);
    assertThat(job.cords()).hasSize(4);
    assertThat(job.zeros()).hasSize(2);
    assertThat(job.readings()).hasSize(23);
    assertThat(job.faces()).hasSize(2);
    assertThat(job.zeros().get(0).levels()).hasSize(4);
  }

  @Test
  void linksAndPaperAloneAreAJob() throws IOException {
    for (String name : List.of("instruments", "cords", "references", "readings", "faces")) {
      Files.delete(folder.resolve(name + ".csv"));
    }
    Job job = assertUsed();
    assertThat(job.links()).hasSize(3);
    assertThat(job.readings()).isEmpty();
  }

  @Test
  void aFolderWithoutPaperOrScheduleIsRefused() throws IOException {
    Files.delete(folder.resolve("job.toml"));
    assertRefused(
        "job.toml: expected a file job.toml in the folder; found none; write one: title and"
            + " [requirement]");
    Files.delete(folder.resolve("links.csv"));
    Files.createDirectory(folder.resolve("links.csv"));
    assertRefused(
        "job.toml: expected a file job.toml in the folder; found none; write one: title and"
            + " [requirement]",
        "links.csv: expected a file links.csv or links.xlsx in the folder; found none; hand in the"
            + " link schedule");
  }

  @Test
  void twoFilesOfOneTableAreRefused() throws IOException {
    Files.copy(folder.resolve("links.csv"), folder.resolve("links.xlsx"));
    assertRefused(
        "links.xlsx: expected one file of links; found links.csv as well; keep one of"
            + " the two");
    Files.delete(folder.resolve("links.xlsx"));
    Files.copy(folder.resolve("links.csv"), folder.resolve("LINKS.CSV"));
    assertRefused(
        "links.csv: expected one file of links; found LINKS.CSV as well; keep one of the" + " two");
  }

  @Test
  void otherFilesAreNotedAndLeftAlone() throws IOException {
    Files.writeString(folder.resolve("readings.xls"), "an old workbook");
    Files.writeString(folder.resolve("summary.csv"), "a,b\n1,2\n");
    Files.writeString(folder.resolve("notes.txt"), "rain");
    Files.writeString(folder.resolve(".hidden"), "");
    Files.writeString(folder.resolve("own.toml"), "id = 'x'");
    Files.createDirectory(folder.resolve("faces"));
    assertThat(read().fileNotes())
        .containsExactly(
            "notes.txt: not a table of a job folder; not read",
            "readings.xls: neither .csv nor .xlsx; not read",
            "summary.csv: not a table of a job folder; not read");
    assertUsed();
  }

  @Test
  void aFolderThatIsAFileOrNothingIsRefused() throws IOException {
    Path mill = folder;
    folder = mill.resolve("links.csv");
    assertRefused(folder + ": expected a folder that can be read; found a file; check the name");
    folder = mill.resolve("nowhere");
    assertRefused(
        folder
            + ": expected a folder that can be read; found nothing of this name; check the name");
  }

  @Test
  void aFileThatCannotBeReadIsRefusedByName() throws IOException {
    // A file whose first byte cannot be read, whoever asks: the memory of this process, from 0.
    Path unreadable = Path.of("/proc/self/mem");
    assumeTrue(Files.isRegularFile(unreadable), "there is no /proc/self/mem here");
    for (String name : List.of("readings.csv", "job.toml")) {
      folder = Fixtures.mill(temp);
      Files.delete(folder.resolve(name));
      Files.createSymbolicLink(folder.resolve(name), unreadable);
      JobFolder.Assembled assembled = read().assemble();
      assertThat(assembled.job()).isEmpty();
      assertThat(assembled.problems())
          .extracting(Problem::line)
          .singleElement()
          .asString()
          .startsWith(name + ": expected a file that can be read; found Input/output error");
      Files.delete(folder.resolve(name));
    }
  }

  @Test
  void aFileWithoutRightToReadIsRefusedByName() throws IOException {
    Path file = folder.resolve("readings.csv");
    assumeTrue(file.toFile().setReadable(false), "rights cannot be taken here");
    assumeTrue(!Files.isReadable(file), "this user may read everything");
    assertRefused(
        "readings.csv: expected a file that can be read; found no right to read it; check file and"
            + " disk");
  }

  @Test
  void aDamagedTableKeepsTheFolderFromBeingJudged() throws IOException {
    Fixtures.edit(folder.resolve("readings.csv"), "L02,1,A-B,1310", "L02,1,\"A-B,1310");
    JobFolder read = read();
    assertThat(read.whole()).isFalse();
    assertRefused(
        "readings.csv, row 10: expected CSV; found Unclosed quoted field at end of input (record"
            + " starting at line 10); look for an unclosed quote");
  }

  @Test
  void rowsOfOneZeroWithTwoMethodsAreOneProblemEach() throws IOException {
    Fixtures.edit(
        folder.resolve("references.csv"),
        "R1,2026-10-05T08:12:00+01:00,one-cord",
        "R1,2026-10-05T08:12:00+01:00,two-cord");
    Job job =
        assertUsed(
            "references.csv, row 4, method: expected one-cord, as in the other rows of R1; found"
                + " two-cord; one zero has one method: correct it or give the row another"
                + " reference");
    assertThat(job.zeros().get(0).levels()).hasSize(3);
  }

  @Test
  void powerAndLossMustAgreeWithTheZeroWithinTwoHundredths() throws IOException {
    // Row 2: zero -5.12 dBm, power -5.42 dBm, so the loss is 0.30 dB.
    Path readings = folder.resolve("readings.csv");
    String start = "L01,1,A-B,1310,-5.42,";
    for (String loss : List.of("0.28", "0.32", "0.30", "0.3000000001")) {
      folder = Fixtures.mill(temp);
      Fixtures.edit(readings, start + "0.30", start + loss);
      assertThat(assertUsed().readings()).as(loss).hasSize(23);
    }
    for (String loss : List.of("0.2799", "0.33", "-0.30", "30")) {
      folder = Fixtures.mill(temp);
      Fixtures.edit(readings, start + "0.30", start + loss);
      Job job =
          assertUsed(
              "readings.csv, row 2, loss_db: expected 0.30 dB within 0.02 dB (zero R1 at -5.12 dBm"
                  + " less power_dbm -5.42); found "
                  + shown(loss)
                  + " dB; find out which of power, loss and reference is wrong");
      assertThat(job.readings()).as(loss).hasSize(22);
    }
  }

  private static String shown(String loss) {
    return loss.equals("0.2799") ? "0.28" : loss.equals("30") ? "30.00" : loss;
  }

  @Test
  void powerAndLossUnderAZeroThatIsNotThereAreLeftToTheJudge() throws IOException {
    Fixtures.edit(
        folder.resolve("readings.csv"),
        "L01,1,A-B,1310,-5.42,0.30,180.6,R1",
        "L01,1,A-B,1310,-5.42,7,180.6,R9");
    assertThat(assertUsed().readings()).hasSize(23);
  }

  @Test
  void unknownColumnsAreNotedByTheAssembledJob() throws IOException {
    Fixtures.edit(folder.resolve("cords.csv"), "length_m", "length_ft");
    assertThat(read().assemble().notes())
        .containsExactly("cords.csv: unknown columns, kept nowhere: length_ft");
  }
}
