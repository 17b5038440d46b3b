package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.Fixtures;
import ferrule.store.intake.TableRow.ReferenceRow;
import ferrule.store.job.TypedEntries.Add;
import ferrule.store.job.TypedEntries.AddLevel;
import ferrule.store.job.TypedEntries.Correct;
import ferrule.store.job.TypedEntries.Withdraw;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Entries made by hand: stored once, never over what their author did not know of. */
class OpenJobTest {

  private static final String KEY = "0a1b2c3d-0000-4000-8000-000000000001";
  private static final FibreId FIBRE = new FibreId("L01", 1);

  private final Path temp;
  private final Path path;
  private final Random random = new Random(7);

  OpenJobTest(@TempDir Path temp) {
    this.temp = temp;
    this.path = temp.resolve("mill.ferrule");
  }

  @BeforeEach
  void make() throws IOException, JobFileException {
    JobFiles.create(path, Fixtures.mill(temp));
  }

  private OpenJob open() throws JobFileException {
    return OpenJob.open(path, JobFiles.CLOCK, random);
  }

  private String key() {
    return new UUID(random.nextLong(), random.nextLong()).toString();
  }

  private static Reading reading(double loss) {
    return new Reading(
        FIBRE.link(),
        FIBRE.fibre(),
        Direction.A_TO_B,
        new Wavelength(1310),
        Double.NaN,
        loss,
        Double.NaN,
        "R1",
        Instant.parse("2026-10-05T12:00:00Z"),
        "Wren");
  }

  private static KeptReading last(OpenJob job) {
    List<KeptReading> all = job.readings(FIBRE);
    return all.get(all.size() - 1);
  }

  private static long known(OpenJob job) {
    return known(job, 1310);
  }

  private static long known(OpenJob job, int nm) {
    return job.readings(FIBRE).stream()
        .filter(KeptReading::stands)
        .filter(k -> k.reading().direction() == Direction.A_TO_B)
        .filter(k -> k.reading().wavelength().nm() == nm)
        .mapToLong(KeptReading::seq)
        .max()
        .orElse(0);
  }

  private static long store(OpenJob job, String key, TypedEntries.Item item)
      throws JobFileException {
    Entered entered = job.enter(new TypedEntries(key, List.of(item)));
    assertThat(entered).isInstanceOf(Entered.Stored.class);
    return ((Entered.Stored) entered).seqs().get(0);
  }

  @Test
  void anOpenJobHoldsWhatItsFileHolds() throws Exception {
    try (OpenJob job = open()) {
      StoredJob read = JobFiles.load(path);
      assertThat(job.stored()).isEqualTo(read);
      assertThat(job.entries()).isEqualTo(read.entries());
    }
  }

  @Test
  void whatIsSentTwiceUnderOneKeyIsStoredOnce() throws Exception {
    try (OpenJob job = open()) {
      TypedEntries typed =
          new TypedEntries(KEY, List.of(new Add(reading(0.42), known(job), "read again")));
      Entered first = job.enter(typed);
      Entered second = job.enter(typed);
      assertThat(first).isEqualTo(new Entered.Stored(List.of(job.entries()), false));
      assertThat(second).isEqualTo(new Entered.Stored(List.of(job.entries()), true));
      assertThat(last(job).key()).isEqualTo(KEY);
      assertThat(last(job).file()).isEqualTo("typed");
      assertThat(last(job).enteredAt()).isEqualTo(JobFiles.CLOCK.instant());
    }
    // Another server on the same file, later: the key is in the file, not in memory.
    try (OpenJob again = open()) {
      long entries = again.entries();
      assertThat(again.enter(new TypedEntries(KEY, List.of(new Add(reading(9), 0, "")))))
          .isEqualTo(new Entered.Stored(List.of(entries), true));
      assertThat(again.entries()).isEqualTo(entries);
    }
  }

  @Test
  void nothingIsStoredOverAReadingThatItsAuthorDidNotKnow() throws Exception {
    try (OpenJob one = open();
        OpenJob other = open()) {
      long known = known(one);
      long first = store(one, key(), new Add(reading(0.42), known, "read again"));
      Entered second =
          other.enter(new TypedEntries(key(), List.of(new Add(reading(0.5), known, "again"))));
      assertThat(second).isInstanceOf(Entered.Overtaken.class);
      List<KeptReading> there = ((Entered.Overtaken) second).there();
      assertThat(there.get(there.size() - 1).seq()).isEqualTo(first);
      assertThat(there.get(there.size() - 1).reading().lossDb()).isEqualTo(0.42);
      assertThat(JobFiles.load(path).entries()).isEqualTo(first);
      store(other, key(), new Add(reading(0.5), first, "cleaned and read again"));
      one.catchUp();
      assertThat(last(one).why()).isEqualTo("cleaned and read again");
    }
  }

  @Test
  void ofTwoItemsEitherBothAreStoredOrNone() throws Exception {
    try (OpenJob job = open()) {
      long before = job.entries();
      Reading other =
          new Reading(
              FIBRE.link(),
              FIBRE.fibre(),
              Direction.A_TO_B,
              new Wavelength(1550),
              -6,
              Double.NaN,
              Double.NaN,
              "R1",
              Instant.parse("2026-10-05T12:00:00Z"),
              "Wren");
      Entered entered =
          job.enter(
              new TypedEntries(
                  key(),
                  List.of(
                      new Add(other, known(job, 1550), "again"), new Add(reading(1), 1, "again"))));
      assertThat(entered).isInstanceOf(Entered.Overtaken.class);
      assertThat(job.entries()).isEqualTo(before);
    }
  }

  @Test
  void aCorrectionTakesTheReadingsPlaceAndBothStayInTheHistory() throws Exception {
    try (OpenJob job = open()) {
      long typed = store(job, key(), new Add(reading(4.2), known(job), "read again"));
      int count = job.stored().job().readings().size();
      long corrected =
          store(job, key(), new Correct(reading(0.42), typed, "decimal point left out"));
      assertThat(job.stored().job().readings()).hasSize(count).contains(reading(0.42));
      assertThat(job.stored().job().readings()).doesNotContain(reading(4.2));
      KeptReading wrong = job.reading(typed).orElseThrow();
      assertThat(wrong.stands()).isFalse();
      assertThat(wrong.end().orElseThrow().why()).isEqualTo("decimal point left out");
      long again = store(job, key(), new Correct(reading(0.43), corrected, "a digit mistyped"));
      assertThat(job.reading(again).orElseThrow().supersedes()).isEqualTo(corrected);
      assertThat(job.enter(new TypedEntries(key(), List.of(new Withdraw(typed, "too late")))))
          .isInstanceOf(Entered.Overtaken.class);
      assertThat(JobFiles.load(path)).isEqualTo(job.stored());
    }
  }

  @Test
  void aWithdrawnReadingCountsNoMoreAndIsNotBroughtBackByItsTable() throws Exception {
    try (OpenJob job = open()) {
      KeptReading first = job.reading(firstReading(job)).orElseThrow();
      int count = job.stored().job().readings().size();
      store(job, key(), new Withdraw(first.seq(), "typed at the wrong port"));
      assertThat(job.stored().job().readings()).hasSize(count - 1);
      assertThat(job.reading(first.seq()).orElseThrow().end().orElseThrow().withdrawn()).isTrue();
      AddOutcome outcome =
          JobFiles.add(path, JobFiles.tables(Fixtures.mill(temp).resolve("readings.csv")));
      assertThat(outcome.entered()).isZero();
      assertThat(JobFiles.load(path)).isEqualTo(job.stored());
    }
  }

  private static long firstReading(OpenJob job) {
    for (long seq = 1; ; seq++) {
      if (job.reading(seq).isPresent()) {
        return seq;
      }
    }
  }

  @Test
  void aZeroIsStoredWholeAndItsNameOnlyOnce() throws Exception {
    try (OpenJob job = open()) {
      TypedEntries.Item level = new AddLevel(level("R9"));
      Entered stored = job.enter(new TypedEntries(KEY, List.of(level)));
      assertThat(stored).isEqualTo(new Entered.Stored(List.of(job.entries()), false));
      assertThat(job.enter(new TypedEntries(KEY, List.of(level))))
          .isEqualTo(new Entered.Stored(List.of(job.entries()), true));
      assertThat(job.enter(new TypedEntries(key(), List.of(level))))
          .isEqualTo(new Entered.NameTaken("R9"));
      assertThat(JobFiles.load(path).job().zeros()).extracting(z -> z.id()).contains("R9");
      assertThat(JobFiles.load(path)).isEqualTo(job.stored());
    }
  }

  private static ReferenceRow level(String zero) {
    return new ReferenceRow(
        zero,
        Method.ONE_CORD,
        new ZeroLevel(
            Instant.parse("2026-10-05T11:00:00Z"),
            Direction.A_TO_B,
            new Wavelength(1310),
            new LevelDbm(-5.1),
            Optional.empty(),
            "S1",
            "M1",
            "",
            "",
            "",
            Optional.empty(),
            "Wren"));
  }

  @Test
  void whatAnotherProgramAddsIsSeen() throws Exception {
    try (OpenJob job = open()) {
      assertThat(job.catchUp()).isFalse();
      Path more = temp.resolve("more.csv");
      Files.writeString(
          more,
          "link,fibre,direction,wavelength_nm,loss_db,reference,measured_at\n"
              + "L01,1,A-B,1310,0.77,R1,2026-10-05T15:00:00Z\n");
      JobFiles.add(path, JobFiles.tables(more));
      assertThat(job.catchUp()).isTrue();
      assertThat(last(job).reading().lossDb()).isEqualTo(0.77);
      assertThat(job.stored()).isEqualTo(JobFiles.load(path));
    }
  }

  @Test
  void anotherFileInThePlaceOfTheFirstIsReadAnew() throws Exception {
    Path copy = temp.resolve("copy.ferrule");
    try (OpenJob job = open()) {
      String id = job.id();
      JobFile.create(copy, JobFiles.batch(Fixtures.mill(temp)), JobFiles.CLOCK, random, r -> {});
      Files.move(copy, path, StandardCopyOption.REPLACE_EXISTING);
      assertThat(job.catchUp()).isTrue();
      assertThat(job.id()).isNotEqualTo(id);
    }
  }

  @Test
  void aFileThatIsGoneIsSaidAndWhatWasReadStays() throws Exception {
    try (OpenJob job = open()) {
      StoredJob before = job.stored();
      Files.move(path, temp.resolve("elsewhere.ferrule"));
      assertThatThrownBy(job::catchUp).isInstanceOf(JobFileException.class);
      assertThat(job.stored()).isEqualTo(before);
    }
  }

  @Test
  void aCorrectionWithoutAReasonOrAKeyThatIsNoneIsRefused() {
    assertThatThrownBy(() -> new TypedEntries(KEY, List.of(new Withdraw(3, " "))))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TypedEntries(KEY, List.of(new Add(reading(1), 3, ""))))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TypedEntries("1", List.of(new Withdraw(3, "why"))))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void aFileWithACorrectionOfWhatIsNoStandingReadingIsRefused() throws Exception {
    try (JobFile file = JobFiles.open(path)) {
      file.writing(
          () -> {
            EntryLog log = file.log();
            log.readAll(entry -> {});
            String content = "{\"link\":\"L01\",\"fibre\":1}";
            try (EntryLog.Appender appender = log.new Appender()) {
              appender.append(
                  log.newId(),
                  EntryKind.WITHDRAWAL,
                  "",
                  content,
                  Entry.digest("withdrawal", content),
                  KEY,
                  TypedEntries.TYPED,
                  0,
                  log.now(),
                  1,
                  "why");
              appender.flush();
            }
            return true;
          });
    }
    assertThatThrownBy(() -> JobFiles.load(path))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("a correction of entry 1, which does not hold a reading that stands");
  }
}
