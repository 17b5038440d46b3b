package ferrule.core.trust.cause;

import static ferrule.core.fixture.JobFixture.length;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.Action;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** One fibre of an honest job is spoilt; what the judge holds for the cause. */
class LossCausesTest {

  private static final FibreId SPOILT = new FibreId("K005", 1);

  /** Sixteen links of two fibres whose readings scatter a little; no draw, the same each time. */
  private static JobFixture singleMode(double lengthM) {
    JobFixture job = JobFixture.singleMode().zero(ZeroFixture.zero("Z1"));
    for (int i = 1; i <= 16; i++) {
      job.link(String.format(Locale.ROOT, "K%03d", i), 2, lengthM);
    }
    return job.readAll("Z1", 1310, 1550).change(r -> true, loss(LossCausesTest::scattered));
  }

  private static JobFixture multimode(double lengthM) {
    JobFixture job = JobFixture.multimode().zero(ZeroFixture.multimode("Z1"));
    for (int i = 1; i <= 16; i++) {
      job.link(String.format(Locale.ROOT, "K%03d", i), FibreCategory.OM4, 2, lengthM);
    }
    return job.readAll("Z1", 850, 1300).change(r -> true, loss(LossCausesTest::scattered));
  }

  private static double scattered(Reading r) {
    double part = 0.08 * Math.sin(7.3 * r.link().hashCode() + 2.9 * r.fibre());
    double mating = 0.03 * Math.sin(1.7 * r.link().hashCode() + r.fibre() + 5 * way(r));
    double noise = 0.008 * Math.sin(3.1 * r.link().hashCode() + 0.7 * r.wavelength().nm() + way(r));
    return r.lossDb() + (part + mating) * (r.wavelength().nm() == 1550 ? 0.8 : 1) + noise;
  }

  private static int way(Reading r) {
    return r.direction().ordinal();
  }

  private static Predicate<Reading> spoilt() {
    return of(SPOILT.toString());
  }

  private static JobFixture more(JobFixture job, ToDoubleFunction<Reading> db) {
    return job.change(spoilt(), loss(r -> r.lossDb() + db.applyAsDouble(r)));
  }

  private static Cause first(JobFixture job) {
    return Judge.judge(job.job()).causesOf(SPOILT).get(0);
  }

  private static double at(Reading r, int nm, double there, double elsewhere) {
    return r.wavelength().nm() == nm ? there : elsewhere;
  }

  @ParameterizedTest(name = "{0}, {1} dB at 1310 nm and {2} at 1550")
  @CsvSource({
    "a connection or splice whose cores are out of line, 0.96, 0.75",
    "a film of dirt at one end of the fibre, 0.8, 0.8",
    "'a bend, crush or tight tie', 0.01, 0.6",
    "'a bend, crush or tight tie', 0.3, 0.9",
    "'an angled plug against a straight one, or an attenuator left in', 3.9, 3.6"
  })
  void thePatternOverWavelengthsTells(String cause, double at1310, double at1550) {
    Cause first = first(more(singleMode(150), r -> at(r, 1310, at1310, at1550)));
    assertThat(first.cause()).isEqualTo(cause);
    assertThat(first.weight()).isGreaterThan(0.5);
  }

  @Test
  void dirtInOneDirectionOnlyIsOfOneMating() {
    Cause first = first(more(singleMode(150), r -> way(r) * 0.6));
    assertThat(first.cause()).isEqualTo("dirt at one mating, in one direction only");
    assertThat(first.weight()).isGreaterThan(0.7);
  }

  @Test
  void threeDecibelsOneWayOnMultimodeAreDifferentCores() {
    Cause first = first(more(multimode(150), r -> way(r) * 3.2));
    assertThat(first.cause()).isEqualTo("fibres of different cores in the line");
    assertThat(first.weight()).isGreaterThan(0.7);
  }

  @Test
  void moreFibreShowsInTheLengthAndInThePatternOfGlass() {
    JobFixture job =
        more(multimode(150), r -> at(r, 850, 0.47, 0.11))
            .change(r -> true, length(150.8))
            .change(spoilt(), length(351));
    assertThat(first(job).cause()).isEqualTo("more fibre in the link than the schedule says");
    // Without any length the pattern of glass, more than four to one, still tells.
    assertThat(first(more(multimode(150), r -> at(r, 850, 0.47, 0.11))).cause())
        .isEqualTo("more fibre in the link than the schedule says");
  }

  @Test
  void aFibreThatFitsAnotherLinkInLossAndLengthIsAnotherFibre() {
    JobFixture job = JobFixture.multimode().zero(ZeroFixture.multimode("Z1"));
    for (int i = 1; i <= 16; i++) {
      double lengthM = i % 2 == 0 ? 390 : 150;
      job.link(String.format(Locale.ROOT, "K%03d", i), FibreCategory.OM4, 2, lengthM);
    }
    job.readAll("Z1", 850, 1300).change(r -> true, loss(LossCausesTest::scattered));
    for (int i = 1; i <= 16; i++) {
      String link = String.format(Locale.ROOT, "K%03d", i);
      job.change(r -> r.link().equals(link), length(i % 2 == 0 ? 391.5 : 150.7));
    }
    more(job, r -> at(r, 850, 0.564, 0.132)).change(spoilt(), length(391.6));
    Cause first = first(job);
    assertThat(first.cause()).isEqualTo("another fibre was connected");
    assertThat(first.weight()).isGreaterThan(0.7);
  }

  @Test
  void valuesOfTwoWavelengthsExchangedAreSeenOnALongLink() {
    JobFixture job = multimode(350);
    List<Reading> own = job.job().readings().stream().filter(spoilt()).toList();
    job.change(
        spoilt(),
        loss(
            r ->
                own.stream()
                    .filter(o -> o.direction() == r.direction())
                    .filter(o -> !o.wavelength().equals(r.wavelength()))
                    .findFirst()
                    .orElseThrow()
                    .lossDb()));
    assertThat(first(job).cause()).isEqualTo("the values of two wavelengths exchanged");
  }

  /** Equal at both wavelengths, dirt and a poor connection look the same on multimode fibre. */
  @Test
  void whereNoCauseLeadsItSaysThatItCannotBeTold() {
    Doubt doubt = doubt(more(multimode(150), r -> at(r, 850, 0.7, 0.68)), DoubtKind.OUTLIER);
    assertThat(doubt.causes().get(0).cause())
        .startsWith("cannot be told: ")
        .contains("a film of dirt at one end of the fibre")
        .contains("a connection or splice whose cores are out of line");
    assertThat(doubt.causes().get(0).weight()).isGreaterThan(0.8);
    assertThat(doubt.evidence()).extracting(Evidence::name).contains("fits");
    assertThat(doubt.next().what()).startsWith("Clean and inspect both ends");
  }

  @Test
  void oneWavelengthInOneDirectionWithoutLengthsCannotTell() {
    JobFixture job =
        more(singleMode(150), r -> 0.6).without(towards(A_TO_B)).without(JobFixture.at(1550));
    Doubt doubt = doubt(job, DoubtKind.OUTLIER);
    assertThat(doubt.causes().get(0).cause()).startsWith("cannot be told: ");
  }

  @Test
  void theEvidenceIsWhatIsLeftOfEachReading() {
    Doubt doubt = doubt(more(singleMode(150), r -> at(r, 1310, 0.96, 0.75)), DoubtKind.OUTLIER);
    assertThat(measure(doubt, "excess_1310_a_b_db")).isCloseTo(0.96, within(0.2));
    assertThat(measure(doubt, "excess_1550_b_a_db")).isCloseTo(0.75, within(0.2));
    assertThat(measure(doubt, "neighbours")).isEqualTo(8);
    assertThat(measure(doubt, "neighbours_high_too")).isZero();
  }

  @Test
  void neighboursThatLieHighTooAreNamed() {
    JobFixture job = singleMode(150);
    for (String fibre : List.of("K004/1", "K004/2", "K005/1", "K005/2", "K006/1", "K006/2")) {
      job.change(of(fibre), loss(r -> r.lossDb() + at(r, 1310, 0.02, 0.6)));
    }
    Doubt doubt = doubt(job, DoubtKind.WAVELENGTH_ORDER);
    assertThat(measure(doubt, "neighbours_high_too")).isGreaterThanOrEqualTo(4);
    assertThat(doubt.evidence()).extracting(Evidence::name).contains("neighbourhood");
  }

  @Test
  void aFailedFibreIsMendedAsItsCauseAsks() {
    assertThat(actions(more(singleMode(150), r -> at(r, 1310, 0.02, 4))).get(0).what())
        .startsWith("Open the trays and panels of " + SPOILT);
    assertThat(actions(more(singleMode(150), r -> 4)).get(0).what())
        .startsWith("Look at the plugs and adapters of " + SPOILT);
    assertThat(actions(more(singleMode(150), r -> way(r) * 2)).get(0).what())
        .startsWith("Clean and inspect both ends of " + SPOILT);
  }

  private static List<Action> actions(JobFixture job) {
    return Judge.judge(job.job()).actions();
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1e9, -70, -5, 0, 0.3, 5, 59, 1e9})
  void wildReadingsGiveProbabilitiesAndNoneThatIsNoNumber(double db) {
    for (JobFixture job :
        List.of(
            more(singleMode(150), r -> db),
            more(multimode(150), r -> way(r) * db),
            more(singleMode(150), r -> at(r, 1310, db, -db)).change(spoilt(), length(1e7)),
            more(singleMode(1), r -> db).without(towards(A_TO_B)),
            alone(db))) {
      Judgement judgement = Judge.judge(job.job());
      for (List<Cause> causes :
          List.of(judgement.causesOf(SPOILT), judgement.causes().told(slot(judgement)))) {
        assertThat(causes).isNotEmpty();
        assertThat(causes).allSatisfy(c -> assertThat(c.weight()).isBetween(0.0, 1.0));
        assertThat(causes.stream().mapToDouble(Cause::weight).sum()).isCloseTo(1, within(1e-9));
        assertThat(causes)
            .extracting(Cause::weight)
            .isSortedAccordingTo(java.util.Comparator.reverseOrder());
      }
    }
  }

  private static JobFixture alone(double db) {
    return JobFixture.singleMode()
        .zero(ZeroFixture.zero("Z1"))
        .link("K005", 1, 150)
        .reading(
            JobFixture.reading(
                "K005", 1, A_TO_B, 1310, db, "Z1", Instant.parse("2026-03-02T08:00:00Z")));
  }

  @Test
  void aFibreThatCannotBeUsedCannotBeTold() {
    JobFixture job = JobFixture.singleMode().link("K005", 1, 150);
    Judgement judgement = Judge.judge(job.job());
    assertThat(judgement.causesOf(SPOILT)).isEmpty();
    assertThat(judgement.causes().told(slot(judgement)))
        .containsExactly(new Cause("cannot be told: too few readings can be used", 1));
  }

  private static int slot(Judgement judgement) {
    return judgement.ledger().slotOf(SPOILT);
  }

  private static Doubt doubt(JobFixture job, DoubtKind kind) {
    return Judge.judge(job.job()).doubts().stream()
        .filter(d -> d.kind() == kind && d.reach().fibres().contains(SPOILT))
        .findFirst()
        .orElseThrow();
  }

  private static double measure(Doubt doubt, String name) {
    return doubt.evidence().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> ((Evidence.Measure) e).value())
        .findFirst()
        .orElseThrow();
  }
}
