package ferrule.app.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.job.Settings;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.FibreId;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The invented job is honest where it should be, and its planted trouble is found, all of it. */
class DemoSiteTest {

  /** The seed of the command when none is given. */
  private static final long SEED = 2026;

  @TempDir private Path temp = Path.of("");

  private static Judgement judge(long seed) {
    DemoRows rows = DemoSite.rows(seed);
    Requirement requirement =
        new Requirement(
            "demo",
            "",
            "",
            ShippedRulebooks.find("iso-11801-1").orElseThrow(),
            new TreeSet<>(
                Stream.of(850, 1300, 1310, 1550).map(Wavelength::new).collect(Collectors.toSet())),
            Requirement.Directions.BOTH,
            Method.ONE_CORD,
            DecisionRule.SIMPLE,
            List.of(),
            Requirement.FaceDemand.NONE,
            Settings.USUAL);
    return Judge.judge(
        new Job(
            requirement,
            rows.links(),
            rows.instruments(),
            rows.cords(),
            rows.zeros(),
            rows.readings(),
            List.of()));
  }

  private static List<Planted> found(Judgement judgement, Predicate<Doubt> which) {
    return judgement.doubts().stream()
        .filter(which)
        .map(d -> Planted.of(d.kind(), d.subject().id(), d.blocking(), d.reach().fibres()))
        .toList();
  }

  @ParameterizedTest
  @ValueSource(longs = {SEED, 1, 2, 77, -5, Long.MIN_VALUE})
  void everyPlantedDoubtRingsWhereItWasPlantedAndNoOtherOfItsKind(long seed) {
    Set<DoubtKind> kinds = EnumSet.noneOf(DoubtKind.class);
    DemoSite.PLANTED.forEach(p -> kinds.add(p.kind()));
    assertThat(kinds).hasSizeGreaterThanOrEqualTo(13);
    assertThat(found(judge(seed), d -> kinds.contains(d.kind())))
        .containsExactlyInAnyOrderElementsOf(DemoSite.PLANTED);
  }

  @ParameterizedTest
  @ValueSource(longs = {SEED, 1, 2, 77, -5, Long.MIN_VALUE})
  void nothingElseHoldsReadingsBack(long seed) {
    assertThat(found(judge(seed), Doubt::blocking))
        .containsExactlyInAnyOrderElementsOf(
            DemoSite.PLANTED.stream().filter(Planted::blocking).toList());
  }

  @ParameterizedTest
  @ValueSource(longs = {SEED, 1, 2, 77, -5, Long.MIN_VALUE})
  void seventyPercentAreProvedAndTheRestStandWhereTheTroublePutsThem(long seed) {
    Judgement judgement = judge(seed);
    assertThat(judgement.totals())
        .containsExactlyInAnyOrderEntriesOf(
            Map.of(
                Standing.PROVED, 235,
                Standing.FAILED, 3,
                Standing.DOUBTFUL, 92,
                Standing.OPEN, 8));
    assertThat(
            judgement.fibres().stream()
                .filter(f -> f.standing() == Standing.FAILED)
                .map(f -> f.fibre().toString()))
        .containsExactlyInAnyOrderElementsOf(PlantedDoubts.FAILED);
  }

  @Test
  void theFolderIsTakenInCleanAndHoldsTheRowsExactly() throws IOException {
    DemoSite.write(temp, SEED);
    JobFolder folder = JobFolder.read(temp, Purpose.JUDGE);
    assertThat(folder.problems()).isEmpty();
    JobFolder.Assembled assembled = folder.assemble();
    assertThat(assembled.problems()).isEmpty();
    Job job = assembled.job().orElseThrow();
    DemoRows rows = DemoSite.rows(SEED);
    assertThat(job.links()).isEqualTo(rows.links());
    assertThat(job.instruments()).isEqualTo(rows.instruments());
    assertThat(job.cords()).isEqualTo(rows.cords());
    assertThat(job.zeros()).isEqualTo(rows.zeros());
    assertThat(job.readings()).hasSameSizeAs(rows.readings());
    assertThat(new HashSet<>(job.readings())).isEqualTo(new HashSet<>(rows.readings()));
    assertThat(job.requirement().rulebook().id()).isEqualTo("iso-11801-1");
    assertThat(job.requirement().method()).isEqualTo(Method.ONE_CORD);
    assertThat(job.requirement().directions()).isEqualTo(Requirement.Directions.BOTH);
    assertThat(job.requirement().title()).contains("(invented)");
  }

  @Test
  void theSameSeedGivesTheSameBytesOnEveryMachine() throws NoSuchAlgorithmException {
    assertThat(DemoSite.generate(SEED)).isEqualTo(DemoSite.generate(SEED));
    assertThat(DemoSite.generate(SEED).get("readings.csv"))
        .isNotEqualTo(DemoSite.generate(SEED + 1).get("readings.csv"));
    // Seen on one machine, to be seen on all. Whoever changes the demo on purpose sets it anew.
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    DemoSite.generate(SEED)
        .forEach(
            (name, text) -> digest.update((name + "\n" + text).getBytes(StandardCharsets.UTF_8)));
    assertThat(HexFormat.of().formatHex(digest.digest()))
        .isEqualTo("7b0d60b9303f538ba3a31fb14906efe4dfb44f9916bee331a769311e83d05cc4");
  }

  @Test
  void theScheduleIsTheSameForEverySeed() {
    assertThat(DemoSite.generate(SEED).get("links.csv"))
        .isEqualTo(DemoSite.generate(3).get("links.csv"));
    assertThat(judge(SEED).fibres()).hasSize(338);
  }

  @Test
  void powerAndLossAgreeWithTheZero() {
    DemoRows rows = DemoSite.rows(SEED);
    Map<String, Zero> zeros = new HashMap<>();
    rows.zeros().forEach(z -> zeros.put(z.id(), z));
    for (Reading reading : rows.readings()) {
      ZeroLevel level =
          Optional.ofNullable(zeros.get(reading.reference()))
              .flatMap(z -> z.level(reading.direction(), reading.wavelength()))
              .orElseThrow();
      assertThat(level.power().value() - reading.powerDbm())
          .as(reading.toString())
          .isCloseTo(reading.lossDb(), within(1e-9));
    }
  }

  @Test
  void theDirtyZeroReadsAFifthOfADecibelLowAndItsReadingsPass() {
    Judgement judgement = judge(SEED);
    Zero dirty = judgement.ledger().zero("Z07").orElseThrow();
    assertThat(dirty.levels())
        .allSatisfy(
            l -> assertThat(l.verification().orElseThrow().value()).isBetween(-0.25, -0.10));
    assertThat(judgement.ledger().current())
        .filteredOn(r -> r.reading().reference().equals("Z07"))
        .hasSize(72)
        .allSatisfy(r -> assertThat(r.marginDb()).isPositive());
  }

  @Test
  void crewsTakeTheTimeThatHandlingTakes() {
    Map<String, Reading> lastOf = new HashMap<>();
    for (Reading reading : DemoSite.rows(SEED).readings()) {
      Reading last = lastOf.put(reading.operator(), reading);
      if (last == null) {
        continue;
      }
      boolean sameMating =
          last.fibreId().equals(reading.fibreId())
              && last.direction() == reading.direction()
              && !last.wavelength().equals(reading.wavelength());
      boolean sameFibre = last.fibreId().equals(reading.fibreId());
      assertThat(Duration.between(last.measuredAt(), reading.measuredAt()))
          .as(reading.toString())
          .isGreaterThanOrEqualTo(Duration.ofSeconds(sameMating ? 6 : sameFibre ? 35 : 55));
    }
    assertThat(lastOf.keySet()).containsExactlyInAnyOrder("Ada", "Bruno", "Chidi");
  }

  @Test
  void onlyTheSessionThatWentOnOutlivesItsHalfDay() {
    DemoRows rows = DemoSite.rows(SEED);
    Map<String, Instant> setAt = new HashMap<>();
    rows.zeros().forEach(z -> setAt.put(z.id(), z.setAt()));
    Set<FibreId> late = new HashSet<>();
    for (Reading reading : rows.readings()) {
      Instant zeroed = setAt.getOrDefault(reading.reference(), Instant.MAX);
      assertThat(reading.measuredAt()).isAfter(zeroed);
      if (Duration.between(zeroed, reading.measuredAt()).toHours() >= 4) {
        late.add(reading.fibreId());
      }
    }
    assertThat(late)
        .containsExactlyInAnyOrderElementsOf(
            DemoSite.PLANTED.stream()
                .filter(p -> p.kind() == DoubtKind.ZERO_LAPSED)
                .findFirst()
                .orElseThrow()
                .fibres());
  }

  @Test
  void nothingOfTheUsersIsWrittenOver() throws IOException {
    Path own = temp.resolve("links.csv");
    Files.writeString(own, "mine");
    assertThatThrownBy(() -> DemoSite.write(temp, SEED))
        .isInstanceOf(FileAlreadyExistsException.class);
    assertThat(own).hasContent("mine");
    try (Stream<Path> files = Files.list(temp)) {
      assertThat(files).containsExactly(own);
    }
  }

  @Test
  void writingTheSameDemoAgainChangesNothing() throws IOException {
    Path folder = temp.resolve("new/folder");
    DemoSite.write(folder, SEED);
    DemoSite.write(folder, SEED);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.map(f -> f.getFileName().toString()))
          .containsExactlyInAnyOrderElementsOf(DemoSite.generate(SEED).keySet());
    }
    for (Map.Entry<String, String> text : DemoSite.generate(SEED).entrySet()) {
      assertThat(Files.readString(folder.resolve(text.getKey()))).isEqualTo(text.getValue());
    }
  }
}
