package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FacePicture;
import ferrule.core.face.FibreOutcome;
import ferrule.core.face.GradedFace;
import ferrule.core.job.Job;
import ferrule.core.zero.Method;
import ferrule.store.Fixtures;
import ferrule.store.Judged;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobFileTest {

  private static final String READINGS_HEADER =
      "link,fibre,direction,wavelength_nm,power_dbm,loss_db,length_m,reference,measured_at,"
          + "operator\n";

  private final Path temp;
  private Path folder = Path.of("");
  private Path path = Path.of("");

  JobFileTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void makeTheMill() throws JobFileException {
    folder = Fixtures.mill(temp);
    path = temp.resolve("mill.ferrule");
    JobFiles.create(path, folder);
  }

  private Path write(String name, String text) throws IOException {
    Path file = Files.createDirectories(temp.resolve("more")).resolve(name);
    Files.writeString(file, text);
    return file;
  }

  private Job folderJob() {
    return JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow();
  }

  @Test
  void aJobFileHoldsTheSameJobAsItsFolderAndIsJudgedAlike() throws JobFileException {
    StoredJob stored = JobFiles.load(path);
    assertThat(stored.job()).isEqualTo(folderJob());
    assertThat(Judged.lines(stored.job())).isEqualTo(Judged.lines(folderJob())).isNotEmpty();
    assertThat(stored.problems()).isEmpty();
    // One paper; 3 links, 3 instruments, 4 cords, 8 levels, 23 readings, 2 faces; 6 intakes.
    assertThat(stored.entries()).isEqualTo(1 + 3 + 3 + 4 + 8 + 23 + 2 + 6);
    assertThat(stored.head()).matches("[0-9a-f]{64}");
    assertThat(JobFiles.load(path).head()).isEqualTo(stored.head());
  }

  @Test
  void nothingButTheJobFileIsLeftInItsFolder() throws IOException {
    assertThat(JobFiles.others(temp, "mill.ferrule", "mill", "more")).isEmpty();
  }

  @Test
  void gradesOfPicturesAreKeptOnceAndTheLastOfAPictureIsTheLast() throws JobFileException {
    StoredJob before = JobFiles.load(path);
    FacePicture listed = before.job().faces().get(0);
    GradedFace first =
        new GradedFace(
            listed,
            "0f".repeat(32),
            "iec-61300-3-35-2015",
            FaceClass.SM_PC,
            FaceOutcome.REJECTED,
            true,
            List.of("Invented: a flaw", "Invented: another, \u201cclose\u201d"));
    GradedFace second =
        new GradedFace(
            listed,
            "0f".repeat(32),
            "iec-61300-3-35-2009",
            FaceClass.SM_APC,
            FaceOutcome.UNREADABLE,
            false,
            List.of("Invented: of a row"),
            List.of(
                new FibreOutcome(FaceOutcome.CONFORMS, true, "Invented: none; close: yes"),
                new FibreOutcome(FaceOutcome.UNREADABLE, false, "no cladding was found")));
    Batch batch =
        new Batch(Optional.empty(), List.of(), List.of(first, second, first), List.of(), List.of());
    assertThat(JobFiles.add(path, batch).entered()).isEqualTo(2);
    assertThat(JobFiles.add(path, batch).entered()).isZero();
    StoredJob after = JobFiles.load(path);
    assertThat(after.job().graded()).containsExactly(first, second);
    assertThat(after.job().faces()).isEqualTo(before.job().faces());
    assertThat(after.entries()).isEqualTo(before.entries() + 2);
  }

  @Test
  void takingTheSameFilesInAgainAddsNothingAndSaysSo() throws JobFileException {
    StoredJob before = JobFiles.load(path);
    AddOutcome outcome = JobFiles.add(path, JobFiles.batch(folder), Optional.of("no reason"));
    assertThat(outcome.problems()).isEmpty();
    assertThat(outcome.entered()).isZero();
    assertThat(outcome.files()).hasSize(7);
    assertThat(outcome.files())
        .allMatch(file -> file.addedNothing() && file.repeated() == file.rows());
    StoredJob after = JobFiles.load(path);
    assertThat(after.entries()).isEqualTo(before.entries());
    assertThat(after.head()).isEqualTo(before.head());
  }

  @Test
  void oneFileTwiceInOneBatchIsTakenInOnce() throws IOException, JobFileException {
    Path more =
        write(
            "readings.csv",
            READINGS_HEADER + "L01,1,A-B,1310,,0.31,,R1,2026-10-05T11:00:00Z,Finch\n");
    AddOutcome outcome = JobFiles.add(path, JobFiles.tables(more, more));
    assertThat(outcome.files().get(0).entered()).isEqualTo(1);
    assertThat(outcome.files().get(1).entered()).isZero();
    assertThat(outcome.files().get(1).repeated()).isEqualTo(1);
    assertThat(JobFiles.load(path).job().readings()).hasSize(24);
  }

  @Test
  void rowsAlikeInOneFileAreSoManyAttempts() throws IOException, JobFileException {
    String row = "L01,1,A-B,1310,,0.31,,R1,2026-10-05T11:00:00Z,Finch\n";
    Path more = write("readings.csv", READINGS_HEADER + row + row);
    assertThat(JobFiles.add(path, JobFiles.tables(more)).entered()).isEqualTo(2);
    assertThat(JobFiles.add(path, JobFiles.tables(more)).entered()).isZero();
    assertThat(JobFiles.load(path).job().readings()).hasSize(25);
  }

  @Test
  void aChangedLinkIsRefusedUnlessAReasonIsGiven() throws Exception {
    Path links = folder.resolve("links.csv");
    Fixtures.edit(links, "L02,OS2,2,240", "L02,OS2,2,261.5");
    AddOutcome refused = JobFiles.add(path, JobFiles.tables(links));
    assertThat(JobFiles.lines(refused.problems()))
        .containsExactly(
            "links.csv, row 3, length_m: expected 240.0, as entered for L02; found 261.5; to"
                + " correct the entry, add the file with --supersede and the reason");
    assertThat(refused.files().get(0).unused()).isEqualTo(1);
    assertThat(refused.files().get(0).repeated()).isEqualTo(2);
    assertThat(JobFiles.load(path).job().links().get(1).lengthM()).isEqualTo(240);

    AddOutcome taken = JobFiles.add(path, JobFiles.tables(links), Optional.of("as surveyed"));
    assertThat(taken.problems()).isEmpty();
    assertThat(taken.files().get(0).superseding()).isEqualTo(1);
    StoredJob stored = JobFiles.load(path);
    assertThat(stored.job()).isEqualTo(folderJob());
    assertThat(stored.problems()).isEmpty();
    assertThat(
            JobFiles.query(
                path,
                "SELECT old.content LIKE '%240.0%', new.content LIKE '%261.5%', new.why, old.seq <"
                    + " new.seq FROM entry old JOIN entry new ON new.supersedes = old.seq"))
        .containsExactly("1|1|as surveyed|1");

    Fixtures.edit(links, "261.5", "262");
    assertThat(JobFiles.add(path, JobFiles.tables(links), Optional.of("again")).entered())
        .isEqualTo(1);
    assertThat(JobFiles.load(path).job()).isEqualTo(folderJob());
    assertThat(JobFiles.query(path, "SELECT count(*) FROM entry WHERE name = 'L02'"))
        .containsExactly("3");
  }

  @Test
  void aCorrectedCordAndInstrumentTakeThePlaceOfTheOld() throws Exception {
    Fixtures.edit(folder.resolve("cords.csv"), "MM-L,OM4,2", "MM-L,OM4,3");
    Fixtures.edit(folder.resolve("instruments.csv"), "M-1,meter,850", "M-1,source+meter,850");
    AddOutcome taken =
        JobFiles.add(
            path,
            JobFiles.tables(folder.resolve("instruments.csv"), folder.resolve("cords.csv")),
            Optional.of("labels read again"));
    assertThat(taken.entered()).isEqualTo(2);
    assertThat(JobFiles.load(path).job()).isEqualTo(folderJob());
  }

  @Test
  void readingsAreCheckedAgainstTheZeroAsCorrectedInTheSameBatch() throws Exception {
    Fixtures.edit(folder.resolve("references.csv"), "OS2,-5.12,0.08", "OS2,-5.62,0.08");
    Path more =
        write(
            "readings.csv",
            READINGS_HEADER
                + "L01,1,A-B,1310,-5.92,0.30,,R1,2026-10-05T11:00:00Z,Finch\n"
                + "L01,2,A-B,1310,-5.42,0.30,,R1,2026-10-05T11:01:00Z,Finch\n");
    AddOutcome taken =
        JobFiles.add(
            path,
            JobFiles.tables(folder.resolve("references.csv"), more),
            Optional.of("power copied wrongly"));
    assertThat(JobFiles.lines(taken.problems()))
        .containsExactly(
            "readings.csv, row 3, loss_db: expected -0.20 dB within 0.02 dB (zero R1 at -5.62 dBm"
                + " less power_dbm -5.42); found 0.30 dB; find out which of power, loss and"
                + " reference is wrong");
    assertThat(taken.entered()).isEqualTo(2);
  }

  @Test
  void readingsAddedLaterAreCheckedAgainstTheStoredZero() throws Exception {
    Path more =
        write(
            "readings.csv",
            READINGS_HEADER + "L01,1,A-B,1310,-5.92,0.30,,R1,2026-10-05T11:00:00Z,Finch\n");
    AddOutcome taken = JobFiles.add(path, JobFiles.tables(more));
    assertThat(taken.problems()).hasSize(1);
    assertThat(taken.entered()).isZero();
  }

  @Test
  void theMethodOfAZeroIsCorrectedInAllItsRowsOrNotAtAll() throws Exception {
    Path references = folder.resolve("references.csv");
    Fixtures.edit(
        references,
        "R1,2026-10-05T08:10:00+01:00,one-cord",
        "R1,2026-10-05T08:10:00+01:00,two-cord");
    AddOutcome refused =
        JobFiles.add(path, JobFiles.tables(references), Optional.of("crew's note"));
    assertThat(JobFiles.lines(refused.problems()))
        .containsExactly(
            "references.csv, row 2, method: expected one-cord, as in the other rows of R1; found"
                + " two-cord; one zero has one method: correct it or give the row another"
                + " reference");
    assertThat(refused.entered()).isZero();

    Files.writeString(
        references,
        Files.readString(references).replaceAll("(?m)^(R1,[^,]*,)one-cord", "$1two-cord"));
    AddOutcome taken = JobFiles.add(path, JobFiles.tables(references), Optional.of("crew's note"));
    assertThat(taken.problems()).isEmpty();
    assertThat(taken.entered()).isEqualTo(4);
    StoredJob stored = JobFiles.load(path);
    assertThat(stored.job().zeros().get(0).method()).isEqualTo(Method.TWO_CORD);
    assertThat(stored.job().zeros().get(1).method()).isEqualTo(Method.ONE_CORD);
    assertThat(stored.job().zeros().get(0).levels()).hasSize(4);
    assertThat(stored.problems()).isEmpty();

    Path onlyNew =
        write(
            "references.csv",
            Files.readAllLines(references).get(0)
                + "\nR1,2026-10-05T08:14:00+01:00,one-cord,A-B,1625,S-SM,M-1,SM-L,SM-R,OS2,-5.5,,"
                + "Wren\n");
    assertThat(JobFiles.add(path, JobFiles.tables(onlyNew), Optional.of("x")).problems())
        .hasSize(1);
  }

  @Test
  void theProblemsOfAFileWithoutOneUsableRowAreKeptUntilItIsHandedInWhole() throws Exception {
    String bad = "L01,1,A-B,1310,\"-5,92\",,,R1,2026-10-05T11:00:00Z,Finch\n";
    Path more = write("more-readings.csv", READINGS_HEADER + bad + bad);
    assertThat(JobFiles.add(path, JobFiles.tables(more)).entered()).isZero();
    StoredJob stored = JobFiles.load(path);
    assertThat(JobFiles.lines(stored.problems()))
        .containsExactly(
            "more-readings.csv, row 2, power_dbm: expected a number from -100 to 40 dBm; found"
                + " -5,92; write a decimal point, or separate the file's fields with semicolons",
            "more-readings.csv, row 3, power_dbm: expected a number from -100 to 40 dBm; found"
                + " -5,92; write a decimal point, or separate the file's fields with semicolons");
    assertThat(JobFiles.add(path, JobFiles.tables(more)).entered()).isZero();
    assertThat(JobFiles.load(path).head()).isEqualTo(stored.head());

    Files.writeString(more, READINGS_HEADER + bad.replace("\"-5,92\"", "-5.92"));
    assertThat(JobFiles.add(path, JobFiles.tables(more)).entered()).isEqualTo(1);
    assertThat(JobFiles.load(path).problems()).isEmpty();
  }

  @Test
  void aPaperIsRepeatedRefusedOrCorrected() throws Exception {
    Fixtures.edit(folder.resolve("job.toml"), "\"both\"", "\"one\"");
    Batch paper = new Batch(JobFiles.batch(folder).paper(), List.of(), List.of());
    AddOutcome refused = JobFiles.add(path, paper);
    assertThat(JobFiles.lines(refused.problems()))
        .containsExactly(
            "job.toml: expected the job's paper as entered; found another text; to correct it, add"
                + " it with --supersede and the reason");
    assertThat(JobFiles.add(path, paper, Optional.of("owner's letter")).entered()).isEqualTo(1);
    assertThat(JobFiles.load(path).job()).isEqualTo(folderJob());
    assertThat(JobFiles.add(path, paper, Optional.of("again")).files().get(0).repeated())
        .isEqualTo(1);
  }

  @Test
  void theOwnersRulebookIsKeptWithTheJob() throws Exception {
    Path own = folder.resolve("own.toml");
    String shipped = ferrule.core.rulebook.ShippedRulebooks.text("iso-11801-1").orElseThrow();
    Files.writeString(own, shipped.replace("id = \"iso-11801-1\"", "id = \"kettle-mill\""));
    Fixtures.edit(folder.resolve("job.toml"), "\"iso-11801-1\"", "\"own.toml\"");
    Path other = temp.resolve("own.ferrule");
    JobFiles.create(other, folder);
    Job before = folderJob();
    Files.delete(own);
    assertThat(JobFiles.load(other).job()).isEqualTo(before);
    assertThat(before.requirement().rulebook().id()).isEqualTo("kettle-mill");
  }

  @Test
  void entriesAreNeitherEditedNorRemoved() {
    assertThatThrownBy(() -> JobFiles.sql(path, "UPDATE entry SET why = 'x' WHERE seq = 3"))
        .hasMessageContaining("entries are never edited");
    assertThatThrownBy(() -> JobFiles.sql(path, "DELETE FROM entry WHERE seq = 3"))
        .hasMessageContaining("entries are never removed");
  }

  @Test
  void idsAreUniqueTimeOrderedAndGoOnThoughTheClockIsSetBack() throws Exception {
    Clock earlier = Clock.offset(JobFiles.CLOCK, Duration.ofDays(-400));
    for (int i = 0; i < 3; i++) {
      Path more =
          write(
              "readings.csv",
              READINGS_HEADER + "L01,1,A-B,1310,,0.3" + i + ",,R1,2026-10-05T11:00:00Z,Finch\n");
      List<String> before = JobFiles.query(path, "SELECT max(id) FROM entry");
      try (JobFile file = JobFile.open(path, earlier, new Random(i))) {
        file.add(JobFiles.tables(more), Optional.empty(), rows -> {});
      }
      assertThat(
              JobFiles.query(
                  path,
                  "SELECT min(id) > '"
                      + before.get(0)
                      + "' FROM entry WHERE seq > (SELECT"
                      + " max(seq) - 2 FROM entry)"))
          .containsExactly("1");
    }
    // Rows are numbered as they go in; an intake's own id is made when its file's turn comes.
    List<String> ids =
        JobFiles.query(path, "SELECT id FROM entry WHERE kind <> 'intake' ORDER BY seq");
    assertThat(ids).isSorted().doesNotHaveDuplicates();
    for (String id : JobFiles.query(path, "SELECT id FROM entry")) {
      assertThat(UUID.fromString(id).version()).isEqualTo(7);
      assertThat(UUID.fromString(id).variant()).isEqualTo(2);
    }
    assertThat(new java.util.TreeSet<>(ids).first())
        .startsWith(String.format("%012x", JobFiles.CLOCK.millis()).replaceFirst("(.{8})", "$1-"));
  }

  @Test
  void manyRowsGoInAtOnceAndProgressIsTold() throws Exception {
    StringBuilder text = new StringBuilder(READINGS_HEADER);
    for (int i = 1; i <= 3_500; i++) {
      text.append("L01,").append(i).append(",A-B,1310,,0.31,,R1,2026-10-05T11:00:00Z,Finch\n");
    }
    Path more = write("readings.csv", text.toString());
    List<Long> told = new ArrayList<>();
    try (JobFile file = JobFiles.open(path)) {
      file.add(JobFiles.tables(more), Optional.empty(), told::add);
      assertThat(file.load().job().readings()).hasSize(23 + 3_500);
    }
    assertThat(told).containsExactly(1000L, 2000L, 3000L);
  }

  @Test
  void anAdditionThatFailsInItsMiddleLeavesNothingAndTheOpenFileCanBeUsedAgain() throws Exception {
    StringBuilder text = new StringBuilder(READINGS_HEADER);
    for (int i = 1; i <= 1_500; i++) {
      text.append("L01,").append(i).append(",A-B,1310,,0.31,,R1,2026-10-05T11:00:00Z,Finch\n");
    }
    Batch more = JobFiles.tables(write("readings.csv", text.toString()));
    StoredJob before = JobFiles.load(path);
    try (JobFile file = JobFiles.open(path)) {
      assertThatThrownBy(
              () ->
                  file.add(
                      more,
                      Optional.empty(),
                      rows -> {
                        throw new IllegalStateException("the lights go out");
                      }))
          .hasMessage("the lights go out");
      assertThat(file.load().head()).isEqualTo(before.head());
      assertThat(file.add(more, Optional.empty(), rows -> {}).entered()).isEqualTo(1_500);
      assertThat(file.load().entries()).isEqualTo(before.entries() + 1_500 + 1);
    }
  }

  @Test
  void aJobFileMayHaveAnyName() throws Exception {
    for (String name :
        List.of(
            "what?.ferrule",
            "a?journal_mode=delete",
            "b?mode=ro&cache=shared",
            "a?mode=memory",
            "mode=memory",
            "100%25 #1.ferrule",
            "caf\u00e9 \u6a5f.ferrule",
            "file:x",
            ":memory:",
            "job")) {
      Path dir = Files.createDirectories(temp.resolve("names"));
      Path odd = dir.resolve(name);
      JobFiles.create(odd, folder);
      assertThat(JobFiles.others(dir)).as(name).containsExactly(name);
      assertThat(JobFiles.load(odd).job()).isEqualTo(folderJob());
      Files.delete(odd);
    }
  }

  @Test
  void aNameThatIsTakenIsRefusedAndLeftAlone() throws Exception {
    byte[] before = Files.readAllBytes(path);
    assertThatThrownBy(() -> JobFiles.create(path, folder))
        .isInstanceOf(JobFileException.class)
        .hasMessage(
            path
                + ": expected a name that is not taken; found a file of this name; choose another"
                + " name, or add to it with ferrule add");
    assertThat(Files.readAllBytes(path)).isEqualTo(before);
  }

  @Test
  void aFolderThatIsNotThereIsRefused() {
    Path nowhere = temp.resolve("nowhere/mill.ferrule");
    assertThatThrownBy(() -> JobFiles.create(nowhere, folder))
        .isInstanceOf(JobFileException.class)
        .hasMessage(
            nowhere
                + ": expected a place in a folder that is there; found no folder "
                + temp.resolve("nowhere")
                + "; make it, or choose another");
  }

  @Test
  void aNewFileNeedsAPaper() {
    Batch noPaper = JobFiles.tables(folder.resolve("links.csv"));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                JobFile.create(
                    temp.resolve("x"), noPaper, JobFiles.CLOCK, new Random(1), rows -> {}));
    assertThat(temp.resolve("x")).doesNotExist();
  }
}
