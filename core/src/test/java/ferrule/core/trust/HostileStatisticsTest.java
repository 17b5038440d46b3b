package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.plant.Link;
import ferrule.core.trust.HostileScenes.Spoiling;
import ferrule.core.zero.Reading;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What breaks a statistic: nothing to estimate from, no scatter, values without sense. The
 * judgement stays sound ({@link SoundJudgement}) and does not pass wild values in silence.
 */
class HostileStatisticsTest {

  /** No link of any job loses or gains as much, dB. */
  private static final double WILD_DB = 1e6;

  private static Judgement judged(JobFixture job) {
    Judgement judgement = Judge.judge(job.job());
    SoundJudgement.check(judgement);
    wildReadingsProveNothing(judgement);
    return judgement;
  }

  private static void wildReadingsProveNothing(Judgement judgement) {
    for (FibreJudgement fibre : judgement.fibres()) {
      for (AssessedReading reading : fibre.readings()) {
        if (reading.current() && Math.abs(reading.lossDb()) >= WILD_DB) {
          assertThat(fibre.standing()).as("%s", reading.reading()).isNotEqualTo(Standing.PROVED);
        }
      }
    }
  }

  private static Set<DoubtKind> kinds(Judgement judgement) {
    Set<DoubtKind> kinds = new HashSet<>();
    judgement.doubts().forEach(d -> kinds.add(d.kind()));
    return kinds;
  }

  /** Jobs of many fibres under few zeros, of a zero for each fibre, and of one fibre. */
  private static List<JobFixture> scenes(long seed) {
    return List.of(
        HostileScenes.ordinary(seed, 3, 5, 2),
        HostileScenes.ordinary(seed, 18, 1, 1),
        HostileScenes.ordinary(seed, 1, 1, 1),
        HostileScenes.oneReadingEach(30));
  }

  private static JobFixture spoilt(JobFixture job, Spoiling spoiling) {
    if (job.readings().isEmpty()) {
      return job;
    }
    try {
      return spoiling.how().apply(job);
    } catch (IllegalStateException e) {
      // Chance took no reading of a small job: it is judged as it is.
      assertThat(e).hasMessageStartingWith("No reading to");
      return job;
    }
  }

  static Stream<Spoiling> spoilings() {
    return HostileScenes.spoilings(1).stream();
  }

  @ParameterizedTest
  @MethodSource("spoilings")
  void noSpoilingBreaksAJudgement(Spoiling spoiling) {
    scenes(1).forEach(job -> judged(spoilt(job, spoiling)));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void noThreeSpoilingsTogetherBreakAJudgement(long seed) {
    List<Spoiling> all = HostileScenes.spoilings(seed);
    SplittableRandom random = new SplittableRandom(seed);
    for (JobFixture job : scenes(seed)) {
      JobFixture worse = job;
      for (int i = 0; i < 3; i++) {
        worse = spoilt(worse, all.get(random.nextInt(all.size())));
      }
      judged(worse);
    }
  }

  @Test
  void hundredsOfZerosWithOneReadingEachLeaveFibresOpenAndNoZeroAccused() {
    JobFixture job = HostileScenes.oneReadingEach(500);
    SplittableRandom random = new SplittableRandom(5);
    job.change(r -> true, loss(r -> Math.rint(100 * (0.2 + 0.2 * random.nextDouble())) / 100));
    Judgement judgement = judged(job);
    assertThat(judgement.totals()).containsEntry(Standing.OPEN, 500);
    assertThat(kinds(judgement)).containsExactly(DoubtKind.MISSING);
    assertThat(judgement.estimate().shift(judgement.zeros().get(0).zero().levels().get(0)))
        .hasValueSatisfying(s -> assertThat(s.sdDb()).isGreaterThan(0.02));
  }

  @Test
  void aWildReadingAmongHundredsOfZerosIsSaidOfItsFibreAlone() {
    for (double wild : new double[] {1e6, -1e6}) {
      JobFixture job = HostileScenes.oneReadingEach(300);
      SplittableRandom random = new SplittableRandom(5);
      job.change(r -> true, loss(r -> Math.rint(100 * (0.2 + 0.2 * random.nextDouble())) / 100));
      job.change(JobFixture.of("K007/1"), loss(r -> wild));
      Judgement judgement = judged(job);
      assertThat(judgement.fibres())
          .filteredOn(f -> f.standing() != Standing.OPEN)
          .extracting(f -> f.fibre().toString())
          .containsExactly("K007/1");
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0, 0.31, 0.125})
  void aJobOfOneNumberIsDoubted(double value) {
    for (JobFixture job :
        List.of(
            HostileScenes.ordinary(1, 3, 5, 2),
            HostileScenes.ordinary(1, 20, 1, 1),
            HostileScenes.oneReadingEach(100))) {
      Judgement judgement = judged(job.change(r -> true, loss(r -> value)));
      assertThat(kinds(judgement)).contains(DoubtKind.REPEATED_VALUES);
      assertThat(judgement.doubts())
          .filteredOn(d -> d.kind() == DoubtKind.REPEATED_VALUES)
          .singleElement()
          .satisfies(
              d -> {
                assertThat(d.subject()).isEqualTo(Subject.JOB);
                assertThat(d.blocking()).isTrue();
                assertThat(d.reach().readings()).hasSize(job.readings().size());
              });
      assertThat(judgement.totals()).containsEntry(Standing.PROVED, 0);
    }
  }

  @Test
  void fewFibresOfOneNumberOrOneReadingThatDiffersIsNoRepeat() {
    Judgement few = judged(HostileScenes.ordinary(1, 1, 11, 1).change(r -> true, loss(r -> 0.3)));
    assertThat(few.doubts()).isEmpty();
    JobFixture one = HostileScenes.ordinary(1, 3, 5, 2).change(r -> true, loss(r -> 0.3));
    Reading last = one.readings().get(0);
    one.change(r -> r.equals(last), loss(r -> 0.31));
    assertThat(kinds(judged(one))).doesNotContain(DoubtKind.REPEATED_VALUES);
  }

  /** A lone fibre has no like: the estimate says that it cannot tell, by a wide deviation. */
  @Test
  void oneFibreAloneTellsLittleOfItsZero() {
    Judgement judgement = judged(HostileScenes.ordinary(1, 1, 1, 1));
    assertThat(judgement.doubts()).isEmpty();
    judgement
        .zeros()
        .get(0)
        .zero()
        .levels()
        .forEach(
            l ->
                assertThat(judgement.estimate().shift(l))
                    .hasValueSatisfying(s -> assertThat(s.sdDb()).isGreaterThan(0.1)));
    for (double wild : new double[] {1e6, -1e6, 1e300, -Double.MAX_VALUE}) {
      judged(HostileScenes.ordinary(1, 1, 1, 1).change(r -> true, loss(r -> wild)));
    }
  }

  /** Each link between two places of its own, the shortest and the longest that a link may be. */
  @ParameterizedTest
  @ValueSource(doubles = {Double.MIN_VALUE, 1e-9, 0.001, Link.LONGEST_M})
  void everyFibreItsOwnCableOfTheOddestLength(double metres) {
    JobFixture job = JobFixture.singleMode().zero(ZeroFixture.zero("Z1"));
    for (int i = 0; i < 120; i++) {
      job.link(HostileScenes.link(HostileScenes.id(i), 1, metres, "Hut " + i, "Mast " + i));
    }
    job.readAll("Z1", 1310, 1550);
    SplittableRandom random = new SplittableRandom(9);
    job.change(
        r -> true, loss(r -> Math.rint(100 * (r.lossDb() + 0.1 * random.nextDouble())) / 100));
    judged(job);
    job.change(r -> true, JobFixture.length(500_000));
    assertThat(kinds(judged(job))).containsAnyOf(DoubtKind.LENGTH_GAP, DoubtKind.LENGTH_SCALE);
    job.change(r -> random.nextInt(3) == 0, loss(r -> -1e6));
    judged(job);
  }

  /** An even mix of every size and sign there is. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void lossesOfEverySizeAndSign(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<JobFixture> jobs = new ArrayList<>(scenes(seed));
    for (JobFixture job : jobs) {
      job.change(
          r -> true,
          loss(
              r ->
                  (random.nextBoolean() ? 1 : -1)
                      * Math.pow(10, -308 + 616 * random.nextDouble())));
      Judgement judgement = judged(job);
      assertThat(job.readings().size() < 5 || !judgement.doubts().isEmpty()).isTrue();
    }
  }

  @Test
  void timesThatAreAllOneMomentLetNeitherStepNorDriftBeSeen() {
    JobFixture job = HostileScenes.ordinary(3, 1, 40, 1);
    job.change(r -> r.link().compareTo("K020") >= 0, loss(r -> r.lossDb() + 0.4));
    assertThat(kinds(judged(job))).contains(DoubtKind.LEVEL_STEP);
    job.change(r -> true, JobFixture.time(MORNING.plusSeconds(3600)));
    assertThat(kinds(judged(job))).doesNotContain(DoubtKind.LEVEL_STEP, DoubtKind.LEVEL_DRIFT);
  }
}
