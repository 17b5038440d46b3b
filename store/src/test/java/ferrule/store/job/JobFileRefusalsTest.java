package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import ferrule.store.Fixtures;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are no job files, disks that are full, writers that are two. */
class JobFileRefusalsTest {

  private static final String READINGS_HEADER =
      "link,fibre,direction,wavelength_nm,loss_db,reference,measured_at,operator\n";

  private final Path temp;
  private Path folder = Path.of("");
  private Path path = Path.of("");

  JobFileRefusalsTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void makeTheMill() throws JobFileException {
    folder = Fixtures.mill(temp);
    path = temp.resolve("mill.ferrule");
    JobFiles.create(path, folder);
  }

  private Path readings(int rows) throws IOException {
    Path file = Files.createDirectories(temp.resolve("more")).resolve("readings.csv");
    StringBuilder text = new StringBuilder(READINGS_HEADER);
    for (int i = 1; i <= rows; i++) {
      text.append("L01,").append(i).append(",A-B,1310,0.31,R1,2026-10-05T11:00:00Z,Finch\n");
    }
    Files.writeString(file, text.toString());
    return file;
  }

  private static String notAJobFile(Path path, String found) {
    return path
        + ": expected a job file; found "
        + found
        + "; make one with ferrule new JOB --from DIR";
  }

  @Test
  void whatIsNoJobFileIsRefused() throws Exception {
    Path other = temp.resolve("other");
    assertThat(JobFiles.refusal(other))
        .isEqualTo(other + ": expected a job file; found no file; make one with ferrule new");
    assertThat(JobFiles.refusal(temp))
        .isEqualTo(temp + ": expected a job file; found a folder; make one with ferrule new");
    assertThat(JobFiles.refusal(folder.resolve("links.csv")))
        .isEqualTo(notAJobFile(folder.resolve("links.csv"), "another kind of file"));
    Files.write(other, new byte[0]);
    assertThat(JobFiles.refusal(other)).isEqualTo(notAJobFile(other, "another kind of file"));
    Files.writeString(other, "SQLite format 3\0 and then something else altogether".repeat(200));
    assertThat(JobFiles.refusal(other)).startsWith(other + ": expected a job file; found ");
    Files.delete(other);
    JobFiles.sql(other, "CREATE TABLE entry (seq INTEGER)");
    assertThat(JobFiles.refusal(other)).isEqualTo(notAJobFile(other, "another program's database"));
  }

  @Test
  void anotherProgramsFileIsNotTouchedByTheRefusal() throws Exception {
    Path other = temp.resolve("other");
    JobFiles.sql(other, "CREATE TABLE entry (seq INTEGER)");
    byte[] before = Files.readAllBytes(other);
    JobFiles.refusal(other);
    assertThat(Files.readAllBytes(other)).isEqualTo(before);
    assertThat(JobFiles.others(temp, "mill", "mill.ferrule", "more")).containsExactly("other");
  }

  @Test
  void aNewerFormatIsRefused() throws Exception {
    JobFiles.sql(path, "PRAGMA user_version = 5");
    assertThat(JobFiles.refusal(path))
        .isEqualTo(
            path
                + ": expected a job file up to format 4; found format 5; open it with the Ferrule"
                + " that wrote it, or a newer one");
  }

  @Test
  void aSecondWriterIsRefusedAfterAWhileAndNothingIsChanged() throws Exception {
    StoredJob before = JobFiles.load(path);
    Batch more = JobFiles.tables(readings(3));
    try (Connection first = JobFiles.connect(path);
        Statement statement = first.createStatement();
        JobFile second = JobFiles.open(path)) {
      statement.execute("BEGIN IMMEDIATE");
      assertThatThrownBy(() -> second.add(more, Optional.empty(), rows -> {}))
          .isInstanceOf(JobFileException.class)
          .hasMessage(
              path
                  + ": expected a job file that nobody else is writing; found another writer at"
                  + " work; wait until it has finished and try again; nothing was changed");
      assertThat(second.load().head()).as("reading goes on meanwhile").isEqualTo(before.head());
      statement.execute("ROLLBACK");
      assertThat(second.add(more, Optional.empty(), rows -> {}).entered()).isEqualTo(3);
    }
    assertThat(JobFiles.load(path).entries()).isEqualTo(before.entries() + 3 + 1);
  }

  @Test
  void anAdditionThatIsStoredIsNeverReportedAsRefusedByTheNextWriter() throws Exception {
    // The next writer stands ready and begins the moment the first one has committed.
    Batch more = JobFiles.tables(readings(2_000));
    try (JobFile first = JobFiles.open(path);
        Connection next = JobFiles.connect(path);
        Statement statement = next.createStatement()) {
      statement.execute("PRAGMA busy_timeout = 20000");
      Thread waiting =
          new Thread(
              () -> {
                try {
                  statement.execute("BEGIN IMMEDIATE");
                } catch (java.sql.SQLException e) {
                  throw new IllegalStateException(e);
                }
              });
      AddOutcome outcome =
          first.add(
              more,
              Optional.empty(),
              rows -> {
                if (rows == 1000) {
                  waiting.start();
                }
              });
      waiting.join();
      assertThat(outcome.entered()).isEqualTo(2_000);
      statement.execute("ROLLBACK");
    }
    assertThat(JobFiles.load(path).job().readings()).hasSize(23 + 2_000);
  }

  private static boolean runs(String... command) throws IOException, InterruptedException {
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      return process.waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  /** A small disk of its own, if this user may make one. */
  private Path mountSmallDisk(String size) throws Exception {
    Path disk = Files.createDirectories(temp.resolve("disk"));
    assumeTrue(
        runs("mount", "-t", "tmpfs", "-o", "size=" + size, "tmpfs", disk.toString()),
        "a small disk cannot be mounted here");
    return disk;
  }

  @Test
  void aFullDiskIsSaidAndNothingIsLostOrHalfTakenIn() throws Exception {
    Path disk = mountSmallDisk("512k");
    try {
      Path small = disk.resolve("mill.ferrule");
      JobFiles.create(small, folder);
      StoredJob before = JobFiles.load(small);
      Batch much = JobFiles.tables(readings(5_000));
      String full =
          small
              + ": expected space on the disk; found a full disk; make room and try again; nothing"
              + " was changed";
      try (JobFile file = JobFiles.open(small)) {
        assertThatThrownBy(() -> file.add(much, Optional.empty(), rows -> {}))
            .isInstanceOf(JobFileException.class)
            .hasMessage(full);
        assertThat(file.load().head()).isEqualTo(before.head());
        assertThat(file.add(JobFiles.tables(readings(3)), Optional.empty(), rows -> {}).entered())
            .as("what still fits goes in, with the same file open")
            .isEqualTo(3);
      }
      assertThat(JobFiles.load(small).entries()).isEqualTo(before.entries() + 3 + 1);

      Path second = disk.resolve("second.ferrule");
      Files.copy(
          readings(5_000),
          folder.resolve("readings.csv"),
          java.nio.file.StandardCopyOption.REPLACE_EXISTING);
      assertThatThrownBy(() -> JobFiles.create(second, folder))
          .isInstanceOf(JobFileException.class)
          .hasMessage(full.replace(small.toString(), second.toString()));
      assertThat(JobFiles.others(disk)).noneMatch(name -> name.contains("second"));
      assertThat(JobFiles.load(small).entries()).isEqualTo(before.entries() + 3 + 1);
    } finally {
      runs("umount", disk.toString());
    }
  }

  @Test
  void aDiskTooFullForANewJobFileIsSaidAndHoldsNothingOfIt() throws Exception {
    for (int kilobytes : new int[] {16, 128}) {
      Path disk = mountSmallDisk(kilobytes + "k");
      try {
        Path small = disk.resolve("mill.ferrule");
        assertThatThrownBy(() -> JobFiles.create(small, folder))
            .as(kilobytes + " kB")
            .isInstanceOf(JobFileException.class)
            .hasMessageStartingWith(small + ": expected space on the disk; found a full disk");
        assertThat(JobFiles.others(disk)).isEmpty();
      } finally {
        runs("umount", disk.toString());
      }
    }
  }

  @Test
  void aDiskTooFullForABackupOrAJoinIsSaidAndHoldsNothingOfIt() throws Exception {
    Path other = temp.resolve("other.ferrule");
    Files.copy(path, other);
    JobFiles.add(other, JobFiles.tables(readings(3)));
    Path disk = mountSmallDisk("48k");
    try {
      Path to = disk.resolve("copy.ferrule");
      String full =
          to
              + ": expected space on the disk; found a full disk; make room and try again; nothing"
              + " was changed";
      try (JobFile file = JobFiles.open(path)) {
        assertThatThrownBy(() -> file.backup(to))
            .isInstanceOf(JobFileException.class)
            .hasMessage(full);
      }
      assertThatThrownBy(() -> JobFile.join(path, other, to, JobFiles.CLOCK, new Random(1)))
          .isInstanceOf(JobFileException.class)
          .hasMessage(full);
      assertThat(JobFiles.others(disk)).isEmpty();
    } finally {
      runs("umount", disk.toString());
    }
  }

  @Test
  void aDiskThatMayOnlyBeReadIsSaid() throws Exception {
    Path disk = mountSmallDisk("2m");
    try {
      Path small = disk.resolve("mill.ferrule");
      JobFiles.create(small, folder);
      assertThat(runs("mount", "-o", "remount,ro", disk.toString())).isTrue();
      String readOnly =
          ": expected a file and folder that may be written; found no right to write; check the"
              + " rights, or work on a copy elsewhere";
      assertThat(JobFiles.refusal(small)).isEqualTo(small + readOnly);
      Path other = disk.resolve("other.ferrule");
      assertThatThrownBy(() -> JobFiles.create(other, folder))
          .isInstanceOf(JobFileException.class)
          .hasMessage(other + readOnly);
      assertThatThrownBy(() -> JobFile.openAsIs(small, JobFiles.CLOCK, new Random(1)))
          .isInstanceOf(JobFileException.class)
          .hasMessage(small + readOnly);
      try (JobFile file = JobFiles.open(path)) {
        assertThatThrownBy(() -> file.backup(other))
            .isInstanceOf(JobFileException.class)
            .hasMessage(other + readOnly);
      }
    } finally {
      runs("umount", disk.toString());
    }
  }

  @Test
  void aFileWithoutRightToWriteIsReadButNotAddedTo() throws Exception {
    assumeTrue(path.toFile().setWritable(false), "rights cannot be taken here");
    assumeTrue(!Files.isWritable(path), "this user may write everything");
    StoredJob before = JobFiles.load(path);
    Batch more = JobFiles.tables(readings(3));
    try (JobFile file = JobFile.open(path, JobFiles.CLOCK, new Random(1))) {
      assertThatThrownBy(() -> file.add(more, Optional.empty(), rows -> {}))
          .isInstanceOf(JobFileException.class)
          .hasMessageContaining("found no right to write");
      assertThat(file.load().head()).isEqualTo(before.head());
    }
  }

  @Test
  void manyOpenFilesReadTheSameJobWhileOneWrites() throws Exception {
    try (JobFile reader = JobFiles.open(path);
        JobFile writer = JobFiles.open(path)) {
      StoredJob before = reader.load();
      List<String> heads = new java.util.ArrayList<>();
      writer.add(
          JobFiles.tables(readings(1_000)),
          Optional.empty(),
          rows -> {
            try {
              heads.add(reader.load().head());
            } catch (JobFileException e) {
              throw new IllegalStateException(e);
            }
          });
      assertThat(heads).containsExactly(before.head());
      assertThat(reader.load().job().readings()).hasSize(23 + 1_000);
    }
  }
}
