package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.job.Job;
import ferrule.core.zero.Reading;
import ferrule.store.Fixtures;
import ferrule.store.Judged;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The job files of two crews joined to one. */
class JoinTest {

  private static final String ENTRIES =
      "SELECT seq, id, kind, name, content, intake, file, row, entered_at, supersedes, why,"
          + " hex(prev), hex(hash) FROM entry ORDER BY seq";
  private static final String ORIGINS = "SELECT * FROM origin ORDER BY joined, place";

  private final Path temp;
  private Path folder = Path.of("");
  private String header = "";
  private List<String> rows = List.of();

  JoinTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void readTheMill() throws IOException {
    folder = Fixtures.mill(temp);
    List<String> readings = Files.readAllLines(folder.resolve("readings.csv"));
    header = readings.get(0);
    rows = readings.subList(1, readings.size());
  }

  /** A crew at work: its own computer, with a clock of its own. */
  private final class Crew {
    final Path file;
    private final Clock clock;
    private final Random random;
    private int tables;

    Crew(String name, Duration ahead) {
      this.file = temp.resolve(name + ".ferrule");
      this.clock = Clock.offset(JobFiles.CLOCK, ahead);
      this.random = new Random(name.hashCode());
    }

    Crew starts() throws JobFileException {
      JobFile.create(file, JobFiles.batch(folder), clock, random, r -> {});
      return this;
    }

    Crew startsFrom(Path other) throws IOException {
      Files.copy(other, file);
      return this;
    }

    AddOutcome adds(Optional<String> why, Path... tables) throws JobFileException {
      try (JobFile open = JobFile.open(file, clock, random)) {
        return open.add(JobFiles.tables(tables), why, r -> {});
      }
    }

    Crew reads(List<String> readings) throws IOException, JobFileException {
      Path table =
          Files.createDirectories(temp.resolve(file.getFileName() + "-" + tables++))
              .resolve("readings.csv");
      List<String> lines = new ArrayList<>(List.of(header));
      lines.addAll(readings);
      Files.write(table, lines);
      adds(Optional.empty(), table);
      return this;
    }
  }

  private JoinOutcome join(Path one, Path other, String into) throws JobFileException {
    return JobFile.join(one, other, temp.resolve(into), JobFiles.CLOCK, new Random(3));
  }

  private JoinOutcome join(Crew one, Crew other, String into) throws JobFileException {
    return join(one.file, other.file, into);
  }

  private void withoutReadings() throws IOException {
    Files.delete(folder.resolve("readings.csv"));
  }

  private Job alone() throws JobFileException, IOException {
    Files.write(folder.resolve("readings.csv"), concat(List.of(header), rows));
    return JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow();
  }

  private static <T> List<T> concat(List<T> one, List<T> other) {
    List<T> all = new ArrayList<>(one);
    all.addAll(other);
    return all;
  }

  private void assertSameFile(String one, String other) throws Exception {
    assertThat(JobFiles.query(temp.resolve(one), ENTRIES))
        .isEqualTo(JobFiles.query(temp.resolve(other), ENTRIES))
        .isNotEmpty();
    assertThat(JobFiles.query(temp.resolve(one), ORIGINS))
        .isEqualTo(JobFiles.query(temp.resolve(other), ORIGINS))
        .isNotEmpty();
  }

  private FileCheck check(String name) throws JobFileException {
    try (JobFile file = JobFile.openAsIs(temp.resolve(name), JobFiles.CLOCK, new Random(4))) {
      return file.check();
    }
  }

  @Test
  void twoCrewsWithATenthInCommonGiveTheJobMadeAloneWhicheverComesFirst() throws Exception {
    withoutReadings();
    // Of 23 readings each crew has about 55 in a hundred: two are in both.
    Crew one = new Crew("one", Duration.ZERO).starts().reads(rows.subList(0, 13));
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts().reads(rows.subList(11, 23));
    byte[] before = Files.readAllBytes(one.file);
    byte[] beforeTwo = Files.readAllBytes(two.file);
    JoinOutcome outcome = join(one, two, "both.ferrule");
    join(two, one, "other.ferrule");
    assertSameFile("both.ferrule", "other.ferrule");
    assertThat(Files.readAllBytes(one.file)).isEqualTo(before);
    assertThat(Files.readAllBytes(two.file)).isEqualTo(beforeTwo);
    StoredJob joined = JobFiles.load(temp.resolve("both.ferrule"));
    Job alone = alone();
    assertThat(joined.job()).isEqualTo(alone);
    assertThat(Judged.lines(joined.job())).isEqualTo(Judged.lines(alone)).isNotEmpty();
    assertThat(joined.problems()).isEmpty();
    assertThat(outcome.conflicts()).isEmpty();
    assertThat(outcome.notes()).isEmpty();
    // Paper, 3 links, 3 instruments, 4 cords, 8 levels, 2 faces; and 2 readings.
    assertThat(outcome.shared()).isEqualTo(1 + 3 + 3 + 4 + 8 + 2 + 2);
    // All of these and the readings once, 6 intakes of each, the join.
    assertThat(outcome.entries()).isEqualTo(21 + 23 + 12 + 1);
    assertThat(outcome.head()).isEqualTo(joined.head());
  }

  @Test
  void readingsDealtOutInAnyWayGiveTheJobMadeAlone() throws Exception {
    withoutReadings();
    Random dealer = new Random(10);
    for (int deal = 0; deal < 4; deal++) {
      List<String> ours = new ArrayList<>();
      List<String> theirs = new ArrayList<>();
      for (String row : rows) {
        int share = dealer.nextInt(10);
        if (share < 5 || share == 9) {
          ours.add(row);
        }
        if (share >= 5) {
          theirs.add(dealer.nextInt(theirs.size() + 1), row);
        }
      }
      Crew one = new Crew("one" + deal, Duration.ZERO).starts().reads(ours);
      Crew two = new Crew("two" + deal, Duration.ofHours(-3)).starts().reads(theirs);
      join(one, two, "both" + deal);
      assertThat(JobFiles.load(temp.resolve("both" + deal)).job()).isEqualTo(alone());
      Files.delete(folder.resolve("readings.csv"));
    }
  }

  @Test
  void crewsWithZerosOfTheirOwnGiveTheJobMadeAloneInWhateverOrderTheyEnteredThem()
      throws Exception {
    Path references = folder.resolve("references.csv");
    List<String> levels = Files.readAllLines(references);
    withoutReadings();
    List<Path> files = new ArrayList<>();
    for (String zero : List.of("R2", "R1")) {
      Files.write(
          references,
          levels.stream().filter(l -> l.startsWith(zero) || l.startsWith("reference")).toList());
      Crew crew = new Crew("crew-" + zero, Duration.ofMinutes(files.size())).starts();
      files.add(crew.reads(rows.stream().filter(r -> r.contains("," + zero + ",")).toList()).file);
    }
    join(files.get(0), files.get(1), "both.ferrule");
    Files.write(references, levels);
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).job()).isEqualTo(alone());
  }

  @Test
  void twoCrewsThatWentOnFromOneFileShareItsEntriesByTheirIds() throws Exception {
    withoutReadings();
    Crew lead = new Crew("lead", Duration.ZERO).starts();
    Crew one = new Crew("one", Duration.ZERO).startsFrom(lead.file).reads(rows.subList(0, 12));
    Crew two = new Crew("two", Duration.ZERO).startsFrom(lead.file).reads(rows.subList(12, 23));
    JoinOutcome outcome = join(one, two, "both.ferrule");
    assertThat(outcome.shared()).isEqualTo(JobFiles.load(lead.file).entries());
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).job()).isEqualTo(alone());
    // And the lead's own file adds nothing but the fact.
    join(lead.file, one.file, "again.ferrule");
    assertThat(JobFiles.load(temp.resolve("again.ferrule")).entries())
        .isEqualTo(JobFiles.load(one.file).entries() + 1);
  }

  @Test
  void whatTheFilesHeldCanBeToldAgainWithTheHeadsThatWereNotedThen() throws Exception {
    withoutReadings();
    Crew one = new Crew("one", Duration.ZERO).starts().reads(rows.subList(0, 13));
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts().reads(rows.subList(11, 20));
    Crew three = new Crew("three", Duration.ofMinutes(9)).starts().reads(rows.subList(18, 23));
    List<String> heads = new ArrayList<>();
    for (Crew crew : List.of(one, two, three)) {
      heads.add(JobFiles.load(crew.file).head());
    }
    heads.add(join(one, two, "two-of-three.ferrule").head());
    join(temp.resolve("two-of-three.ferrule"), three.file, "all.ferrule");
    assertThat(check("all.ferrule").joined()).containsExactlyInAnyOrderElementsOf(heads);
    join(three, two, "other-two.ferrule");
    join(one.file, temp.resolve("other-two.ferrule"), "other.ferrule");
    Job alone = alone();
    assertThat(JobFiles.load(temp.resolve("all.ferrule")).job()).isEqualTo(alone);
    assertThat(JobFiles.load(temp.resolve("other.ferrule")).job())
        .as("joined in another order")
        .isEqualTo(alone);

    JobFiles.sql(
        temp.resolve("all.ferrule"),
        "DROP TRIGGER origin_is_never_edited",
        "UPDATE origin SET row = 99 WHERE place = 5 AND joined = 2");
    assertThatThrownBy(() -> check("all.ferrule"))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("a joined file that does not give its head any more: ");
  }

  @Test
  void aJoinedFileIsAddedToLikeAnyOther() throws Exception {
    withoutReadings();
    Crew one = new Crew("one", Duration.ZERO).starts().reads(rows.subList(0, 5));
    Crew two = new Crew("two", Duration.ofDays(1)).starts().reads(rows.subList(5, 9));
    join(one, two, "both.ferrule");
    Path all = folder.resolve("readings.csv");
    Files.write(all, concat(List.of(header), rows));
    AddOutcome outcome = JobFiles.add(temp.resolve("both.ferrule"), JobFiles.tables(all));
    assertThat(outcome.files().get(0).repeated()).isEqualTo(9);
    assertThat(outcome.files().get(0).entered()).isEqualTo(14);
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).job()).isEqualTo(alone());
  }

  @Test
  void aReadingWithTwoValuesIsKeptTwiceListedAndBelievedInNeither() throws Exception {
    withoutReadings();
    String spoilt = rows.get(0).replace("-5.42,0.30", "-5.62,0.50");
    assertThat(spoilt).isNotEqualTo(rows.get(0));
    Crew one = new Crew("one", Duration.ZERO).starts().reads(rows);
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts().reads(List.of(spoilt));
    JoinOutcome outcome = join(one, two, "both.ferrule");
    String line =
        "readings.csv, row 2, power_dbm, loss_db: expected -5.42, 0.3, as entered for L01/1 A-B"
            + " 1310 2026-10-05T08:02:00Z at 2026-10-06 07:00 (readings.csv, row 2); found -5.62,"
            + " 0.5, entered at 2026-10-06 07:07; both are kept; read the fibre again";
    assertThat(JobFiles.lines(outcome.conflicts())).containsExactly(line);
    join(two, one, "other.ferrule");
    assertSameFile("both.ferrule", "other.ferrule");
    StoredJob joined = JobFiles.load(temp.resolve("both.ferrule"));
    assertThat(JobFiles.lines(joined.problems())).containsExactly(line);
    assertThat(joined.job().readings()).hasSize(24);
    assertThat(Judged.lines(joined.job())).anyMatch(l -> l.startsWith("L01/1 DOUBTFUL"));

    Path retest = temp.resolve("retest.csv");
    Files.write(
        retest, List.of(header, rows.get(0).replace("2026-10-05T09:02:00", "2026-10-05T16:02:00")));
    JobFiles.add(temp.resolve("both.ferrule"), JobFiles.tables(retest));
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).problems()).isEmpty();
  }

  @Test
  void papersThatDifferAreListedAndHoldBackWhatHangsOnThemUntilSomebodySettlesIt()
      throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Fixtures.edit(folder.resolve("links.csv"), "L01,OS2,2,180", "L01,OS2,2,1180");
    Fixtures.edit(folder.resolve("cords.csv"), "MM-L,OM4,2", "MM-L,OM3,2");
    Fixtures.edit(folder.resolve("job.toml"), "\"Alder Cabling (invented)\"", "\"Alder\"");
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts();
    JoinOutcome outcome = join(one, two, "both.ferrule");
    String settle = "; both are kept; settle it with ferrule add --supersede WHY";
    assertThat(JobFiles.lines(outcome.conflicts()))
        .containsExactly(
            "job.toml, contractor: expected \"Alder Cabling (invented)\", as entered for the job at"
                + " 2026-10-06 07:00 (job.toml); found \"Alder\", entered at 2026-10-06 07:07"
                + settle,
            "links.csv, row 2, length_m: expected 180.0, as entered for link L01 at 2026-10-06"
                + " 07:00 (links.csv, row 2); found 1180.0, entered at 2026-10-06 07:07"
                + settle,
            "cords.csv, row 4, fibre_category: expected OM4, as entered for cord MM-L at 2026-10-06"
                + " 07:00 (cords.csv, row 4); found OM3, entered at 2026-10-06 07:07"
                + settle);
    Path both = temp.resolve("both.ferrule");
    assertThat(Judged.lines(JobFiles.load(both).job()))
        .anyMatch(l -> l.startsWith("L01/1 DOUBTFUL"))
        .anyMatch(
            l ->
                l.contains("PAPER_CONFLICT")
                    && l.contains("two crews entered link L01 differently: length_m 180.0 and")
                    && l.endsWith("[L01/1, L01/2]"))
        .anyMatch(
            l ->
                l.contains("two crews entered cord MM-L differently")
                    && l.endsWith("[L03/1, L03/2]"));

    // Who settles it enters the right value, here the one that stands already, with a reason.
    assertThat(JobFiles.add(both, JobFiles.tables(folder.resolve("links.csv"))).entered()).isZero();
    Batch right = JobFiles.tables(folder.resolve("links.csv"), folder.resolve("cords.csv"));
    assertThat(JobFiles.add(both, right, Optional.of("measured again")).entered()).isEqualTo(2);
    StoredJob settled = JobFiles.load(both);
    assertThat(JobFiles.lines(settled.problems())).hasSize(1);
    assertThat(Judged.lines(settled.job())).noneMatch(l -> l.contains("two crews entered"));
    assertThat(settled.job().links().get(0).lengthM()).isEqualTo(1180);
    assertThat(JobFiles.add(both, right, Optional.of("once more")).entered()).isZero();
  }

  @Test
  void aZeroOfOneNameSetTwiceHoldsBackEveryReadingUnderIt() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Fixtures.edit(folder.resolve("references.csv"), "OS2,-5.12,0.08", "OS2,-5.13,0.08");
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts();
    join(one, two, "both.ferrule");
    assertThat(Judged.lines(JobFiles.load(temp.resolve("both.ferrule")).job()))
        .anyMatch(
            l ->
                l.contains("two crews entered zero R1 A-B 1310 differently: power_dbm")
                    && l.endsWith("[L01/1, L01/2, L02/1, L02/2]"));
  }

  @Test
  void aCorrectionOnOneSideStandsAndIsNoConflict() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Crew two = new Crew("two", Duration.ofDays(-1)).starts();
    Fixtures.edit(folder.resolve("links.csv"), "L02,OS2,2,240", "L02,OS2,2,261.5");
    two.adds(Optional.of("as surveyed"), folder.resolve("links.csv"));
    JoinOutcome outcome = join(one, two, "both.ferrule");
    assertThat(outcome.conflicts()).isEmpty();
    StoredJob joined = JobFiles.load(temp.resolve("both.ferrule"));
    assertThat(joined.job().links().get(1).lengthM()).isEqualTo(261.5);
    assertThat(
            JobFiles.query(
                temp.resolve("both.ferrule"),
                "SELECT why FROM entry WHERE name = 'L02' AND kind = 'link' ORDER BY seq"))
        .containsExactly("", "as surveyed");
  }

  @Test
  void correctionsOnBothSidesAllStayAndTheLaterHoldsTheName() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts();
    Fixtures.edit(folder.resolve("links.csv"), "L02,OS2,2,240", "L02,OS2,2,261.5");
    two.adds(Optional.of("as surveyed"), folder.resolve("links.csv"));
    Fixtures.edit(folder.resolve("links.csv"), "L02,OS2,2,261.5", "L02,OS2,2,250");
    one.adds(Optional.of("by wheel"), folder.resolve("links.csv"));
    join(one, two, "both.ferrule");
    join(two, one, "other.ferrule");
    assertSameFile("both.ferrule", "other.ferrule");
    assertThat(
            JobFiles.query(
                temp.resolve("both.ferrule"),
                "SELECT why, content LIKE '%261.5%' FROM entry WHERE name = 'L02' ORDER BY seq"))
        .containsExactly("|0", "by wheel|0", "as surveyed|1");
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).problems()).hasSize(1);
  }

  @Test
  void rowsThatCouldNotBeUsedOnEitherSideStayListed() throws Exception {
    withoutReadings();
    Crew one = new Crew("one", Duration.ZERO).starts();
    one.reads(List.of(rows.get(0), rows.get(1).replace("0.24", "much")));
    Crew two = new Crew("two", Duration.ofMinutes(7)).starts();
    two.reads(List.of(rows.get(2), rows.get(3), rows.get(4).replace("0.35", "little")));
    join(one, two, "both.ferrule");
    assertThat(JobFiles.lines(JobFiles.load(temp.resolve("both.ferrule")).problems()))
        .hasSize(2)
        .anyMatch(l -> l.startsWith("readings.csv, row 3, loss_db: ") && l.contains("much"))
        .anyMatch(l -> l.startsWith("readings.csv, row 4, loss_db: ") && l.contains("little"));
  }

  @Test
  void aJobOfAnotherSiteIsRefusedAndNothingIsMade() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    String title = "Kettle Mill, backbone (invented)";
    Fixtures.edit(folder.resolve("job.toml"), title, "Rope Walk, backbone (invented)");
    Crew two = new Crew("two", Duration.ZERO).starts();
    assertThatThrownBy(() -> join(one, two, "both.ferrule"))
        .isInstanceOf(JobFileException.class)
        .hasMessage(
            two.file
                + ", title: expected a job of the site of "
                + one.file
                + ", \"Kettle Mill, backbone (invented)\"; found \"Rope Walk, backbone"
                + " (invented)\"; join files of one site only; if it is one site, correct the title"
                + " with ferrule add JOB job.toml --supersede WHY");
    assertThat(JobFiles.others(temp, "mill", "one.ferrule", "two.ferrule")).isEmpty();

    Fixtures.edit(folder.resolve("job.toml"), "Rope Walk, backbone (invented)", title);
    Path links = folder.resolve("links.csv");
    Files.writeString(
        links,
        Files.readString(links)
            .replace(",180,", ",80,")
            .replace(",240,", ",41,")
            .replace(",85,", ",5,"));
    Crew three = new Crew("three", Duration.ZERO).starts();
    assertThatThrownBy(() -> join(one, three, "both.ferrule"))
        .hasMessage(
            three.file
                + ", links: expected links as in "
                + one.file
                + "; found none of 3 links of the same names alike: L01 has length_m 80.0 instead of"
                + " 180.0; these look like jobs of different sites with one title: join files of"
                + " one site only");
  }

  @Test
  void oneFileTwiceIsRefused() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Crew copy = new Crew("copy", Duration.ZERO).startsFrom(one.file);
    assertThatThrownBy(() -> join(one, copy, "both.ferrule"))
        .hasMessageContaining("found the same, entry by entry; there is nothing to join");
  }

  @Test
  void clocksThatDisagreeByADayAreSaidAndNothingIsLost() throws Exception {
    withoutReadings();
    Crew one = new Crew("one", Duration.ZERO).starts().reads(rows.subList(0, 12));
    Crew ahead = new Crew("ahead", Duration.ofDays(1)).starts().reads(rows.subList(12, 23));
    JoinOutcome outcome = join(one, ahead, "both.ferrule");
    assertThat(outcome.notes())
        .containsExactly(
            ahead.file
                + " was last added to at 2026-10-07T07:00:00Z, 1 day ahead of this machine's clock:"
                + " one of the two clocks is wrong. Times are kept as they are");
    assertThat(JobFiles.load(temp.resolve("both.ferrule")).job()).isEqualTo(alone());
    Files.delete(folder.resolve("readings.csv"));

    Crew behind = new Crew("behind", Duration.ofDays(-1)).starts().reads(rows.subList(12, 23));
    assertThat(join(one, behind, "second.ferrule").notes())
        .containsExactly(
            behind.file
                + ": 11 readings were measured after being entered, by up to 5 h 42 min: the clock"
                + " of the instrument or of the computer was wrong. Times are kept as they are");
    assertThat(JobFiles.load(temp.resolve("second.ferrule")).job()).isEqualTo(alone());
    Files.delete(folder.resolve("readings.csv"));

    List<String> shifted =
        rows.subList(0, 12).stream().map(r -> r.replace("2026-10-05T", "2026-10-04T")).toList();
    Crew instrument = new Crew("instrument", Duration.ZERO).starts().reads(shifted);
    JoinOutcome third = join(instrument, one, "third.ferrule");
    assertThat(third.notes())
        .containsExactly(
            "12 readings of the two files are alike but for their times, which lie 1 day apart,"
                + " those of "
                + one.file
                + " later: if a clock was wrong by that much they are the same readings. Both are"
                + " kept");
    assertThat(JobFiles.load(temp.resolve("third.ferrule")).job().readings()).hasSize(24);
  }

  @Test
  void oldJobFilesAreJoinedAndStayOfTheirFormat() throws Exception {
    Path two = Files.copy(Fixtures.path("jobs/mill-format-2.ferrule"), temp.resolve("two"));
    Path three = Files.copy(Fixtures.path("jobs/mill-format-3.ferrule"), temp.resolve("three"));
    JobFile.join(
        two,
        three,
        temp.resolve("both"),
        Clock.fixed(Instant.parse("2026-12-01T00:00:00Z"), ZoneOffset.UTC),
        new Random(1));
    assertThat(JobFiles.query(two, "PRAGMA user_version")).containsExactly("2");
    assertThat(JobFiles.query(three, "PRAGMA user_version")).containsExactly("3");
    assertThat(check("both").joined()).hasSize(2);
    assertThat(check("both").format()).isEqualTo(5);
  }

  @Test
  void anEntryOfOneIdThatSaysTwoThingsIsRefused() throws Exception {
    Crew one = new Crew("one", Duration.ZERO).starts();
    Crew two = new Crew("two", Duration.ZERO).starts();
    // The same ids by the same clock and the same chance, over another reading.
    Path same = temp.resolve("same.ferrule");
    Fixtures.edit(folder.resolve("readings.csv"), "-5.42,0.30", "-5.43,0.31");
    JobFile.create(
        same, JobFiles.batch(folder), JobFiles.CLOCK, new Random("one".hashCode()), r -> {});
    assertThatThrownBy(() -> join(one.file, same, "both.ferrule"))
        .hasMessageContaining("in both files, but not with the same content")
        .hasMessageContaining("one of the two was changed outside Ferrule: go back to a copy");
    join(one, two, "both.ferrule");
  }

  private interface AtTheDesk {
    void does(OpenJob job) throws JobFileException;
  }

  /**
   * Both corrected and withdrew readings that both held: alike once, otherwise one after the other,
   * and a correction of what the other withdrew stands by itself.
   */
  @Test
  void whatTwoCrewsCorrectedAndWithdrewIsJoinedInEitherOrder() throws Exception {
    Crew base = new Crew("base", Duration.ZERO).starts();
    Crew one = new Crew("one", Duration.ofHours(1)).startsFrom(base.file);
    Crew other = new Crew("other", Duration.ofHours(2)).startsFrom(base.file);
    List<KeptReading> kept = new ArrayList<>();
    try (OpenJob job = OpenJob.open(base.file, JobFiles.CLOCK, new Random(1))) {
      for (Reading reading : job.stored().job().readings()) {
        job.readings(reading.fibreId()).stream()
            .filter(k -> k.reading().equals(reading))
            .findFirst()
            .ifPresent(kept::add);
      }
    }
    int all = kept.size();
    TypedEntries.Item sameWithdrawal = new TypedEntries.Withdraw(kept.get(0).seq(), "wrong port");
    TypedEntries.Item withdrawal = new TypedEntries.Withdraw(kept.get(1).seq(), "wrong port");
    at(one, "a1", job -> job.enter(typed("a1", sameWithdrawal)));
    at(other, "b1", job -> job.enter(typed("b1", sameWithdrawal)));
    at(one, "a2", job -> job.enter(typed("a2", withdrawal)));
    at(other, "b2", job -> job.enter(typed("b2", correction(kept.get(1), 0.91))));
    at(one, "a3", job -> job.enter(typed("a3", correction(kept.get(2), 0.81))));
    at(other, "b3", job -> job.enter(typed("b3", correction(kept.get(2), 0.82))));

    Path ab = temp.resolve("ab.ferrule");
    Path ba = temp.resolve("ba.ferrule");
    JobFile.join(one.file, other.file, ab, JobFiles.CLOCK, new Random(1));
    JobFile.join(other.file, one.file, ba, JobFiles.CLOCK, new Random(2));
    assertThat(JobFiles.query(ab, ENTRIES)).isEqualTo(JobFiles.query(ba, ENTRIES));
    StoredJob joined = JobFiles.load(ab);
    // One withdrawn by both; one withdrawn here and corrected there stands by itself.
    assertThat(joined.job().readings()).hasSize(all - 1);
    assertThat(
            joined.job().readings().stream()
                .map(Reading::lossDb)
                .filter(loss -> loss == 0.91 || loss == 0.81 || loss == 0.82))
        .containsExactlyInAnyOrder(0.91, 0.82);
    try (JobFile file = JobFile.openAsIs(ab, JobFiles.CLOCK, new Random(1))) {
      assertThat(file.check().joined()).hasSize(2);
    }
    // Joined once more with one of the two nothing is new.
    Path again = temp.resolve("again.ferrule");
    JobFile.join(ab, one.file, again, JobFiles.CLOCK, new Random(3));
    assertThat(Judged.standings(JobFiles.load(again).job()))
        .isEqualTo(Judged.standings(joined.job()));
  }

  /** One crew went on with what the other withdrew: its last word stands, once. */
  @Test
  void whatOneCrewWithdrewAndTheOtherWentOnWithStandsAsTheOtherLeftIt() throws Exception {
    Crew base = new Crew("base", Duration.ZERO).starts();
    Crew one = new Crew("one", Duration.ofHours(1)).startsFrom(base.file);
    Crew other = new Crew("other", Duration.ofHours(2)).startsFrom(base.file);
    List<KeptReading> kept = new ArrayList<>();
    try (OpenJob job = OpenJob.open(base.file, JobFiles.CLOCK, new Random(1))) {
      List<Reading> readings = job.stored().job().readings();
      for (Reading reading : List.of(readings.get(0), readings.get(readings.size() - 1))) {
        job.readings(reading.fibreId()).stream()
            .filter(k -> k.reading().equals(reading))
            .forEach(kept::add);
      }
    }
    KeptReading twice = kept.get(0);
    KeptReading gone = kept.get(1);
    at(one, "a1", job -> job.enter(typed("a1", new TypedEntries.Withdraw(twice.seq(), "port"))));
    at(one, "a2", job -> job.enter(typed("a2", new TypedEntries.Withdraw(gone.seq(), "port"))));
    at(other, "b1", job -> job.enter(typed("b1", correction(twice, 0.71))));
    at(other, "b2", job -> job.enter(typed("b2", correction(last(job, twice), 0.72))));
    at(other, "b3", job -> job.enter(typed("b3", correction(gone, 0.73))));
    at(
        other,
        "b4",
        job -> job.enter(typed("b4", new TypedEntries.Withdraw(last(job, gone).seq(), "port"))));

    int before = JobFiles.load(base.file).job().readings().size();
    for (List<Crew> pair : List.of(List.of(one, other), List.of(other, one))) {
      Path into = temp.resolve(pair.get(0).file.getFileName() + "-first.ferrule");
      JobFile.join(pair.get(0).file, pair.get(1).file, into, JobFiles.CLOCK, new Random(1));
      List<Reading> readings = JobFiles.load(into).job().readings();
      assertThat(readings).hasSize(before - 1);
      assertThat(readings.stream().map(Reading::lossDb).filter(loss -> loss > 0.7 && loss < 0.74))
          .containsExactly(0.72);
      try (JobFile file = JobFile.openAsIs(into, JobFiles.CLOCK, new Random(1))) {
        assertThat(file.check().joined()).hasSize(2);
      }
    }
  }

  /** The entry that now stands where a reading was. */
  private static KeptReading last(OpenJob job, KeptReading was) {
    return job.readings(was.reading().fibreId()).stream()
        .filter(KeptReading::stands)
        .filter(k -> k.reading().direction() == was.reading().direction())
        .filter(k -> k.reading().wavelength().equals(was.reading().wavelength()))
        .reduce((a, b) -> b)
        .orElseThrow();
  }

  private static TypedEntries typed(String key, TypedEntries.Item item) {
    return new TypedEntries("0a1b2c3d-0000-4000-8000-0000000000" + key, List.of(item));
  }

  private static TypedEntries.Item correction(KeptReading kept, double loss) {
    Reading r = kept.reading();
    return new TypedEntries.Correct(
        new Reading(
            r.link(),
            r.fibre(),
            r.direction(),
            r.wavelength(),
            Double.NaN,
            loss,
            r.lengthM(),
            r.reference(),
            r.measuredAt(),
            r.operator()),
        kept.seq(),
        "typed wrongly");
  }

  private void at(Crew crew, String key, AtTheDesk deed) throws JobFileException {
    try (OpenJob job = OpenJob.open(crew.file, crew.clock, new Random(key.hashCode()))) {
      deed.does(job);
    }
  }
}
