package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.many.HonestJobs.Lengths;
import ferrule.core.trust.many.HonestJobs.Sorted;
import ferrule.core.trust.many.HonestJobs.Stamps;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class RepeatedValuesTest {

  private static final int JOBS = 100;

  private static HonestJobs job(long seed) {
    HonestJobs job = new HonestJobs(seed);
    job.fibresALink = 2;
    job.links = 30 + (int) (seed % 171);
    job.stamps = Stamps.EACH_READING;
    job.sorted = Sorted.BY_TIME;
    job.directionByDirection = false;
    job.severalCrews = false;
    return job;
  }

  private static List<Doubt> doubts(JobFixture job) {
    List<Doubt> doubts = new ArrayList<>();
    Ledger ledger = Ledger.of(job.job());
    new RepeatedValuesFinder(new Timeline(ledger)).find(ledger, doubts::add);
    return doubts;
  }

  /** In how many of the jobs exactly the copied fibres ring. */
  private static int found(Consumer<HonestJobs> style, int links, int fibres, int linksBack) {
    int found = 0;
    for (int i = 0; i < JOBS; i++) {
      HonestJobs honest = job(20_000 + i);
      style.accept(honest);
      JobFixture job = honest.fixture();
      int first = linksBack + 1 + honest.random.nextInt(honest.links - linksBack - links + 1);
      Map<String, String> copies = new LinkedHashMap<>();
      for (int k = first; k < first + links; k++) {
        for (int f = 1; f <= fibres; f++) {
          copies.put(Planting.link(k) + "/" + f, Planting.link(k - linksBack) + "/" + f);
        }
      }
      Set<String> rung = new LinkedHashSet<>();
      doubts(Planting.copy(job, copies)).forEach(d -> rung.add(d.subject().id()));
      found += rung.equals(copies.keySet()) ? 1 : 0;
    }
    return found;
  }

  @Test
  void aLinkCopiedFromItsNeighbourIsFoundWithItsLengths() {
    assertThat(found(j -> j.lengths = Lengths.MEASURED, 1, 2, 1)).isGreaterThanOrEqualTo(98);
  }

  @Test
  void aLinkCopiedFromItsNeighbourIsFoundWithoutLengths() {
    assertThat(found(j -> j.lengths = Lengths.NONE, 1, 2, 1)).isGreaterThanOrEqualTo(98);
  }

  @Test
  void aFibreCopiedWithTheLengthOfAnotherLinkIsFoundNearAndFar() {
    Consumer<HonestJobs> style =
        j -> {
          j.lengths = Lengths.MEASURED;
          j.oneLength = false;
        };
    assertThat(found(style, 1, 1, 1)).isGreaterThanOrEqualTo(98);
    assertThat(found(style, 1, 1, 12)).isGreaterThanOrEqualTo(96);
  }

  @Test
  void aListCopiedFromFarAwayIsFoundWithoutLengths() {
    assertThat(found(j -> j.lengths = Lengths.NONE, 5, 2, 12)).isGreaterThanOrEqualTo(98);
  }

  @Test
  void aFibreCopiedFromFarAwayCannotBeToldFromCoincidence() {
    assertThat(found(j -> j.lengths = Lengths.NONE, 1, 1, 12)).isLessThanOrEqualTo(2);
  }

  @Test
  void lengthsTypedInAlikeEverywhereTellNothing() {
    Consumer<HonestJobs> style =
        j -> {
          j.lengths = Lengths.TYPED;
          j.oneLength = true;
        };
    assertThat(found(style, 1, 1, 12)).isLessThanOrEqualTo(2);
  }

  @Test
  void aThirdDecimalMakesEqualityRareAnywhere() {
    assertThat(
            found(
                j -> {
                  j.lengths = Lengths.NONE;
                  j.step = 0.001;
                },
                1,
                1,
                12))
        .isGreaterThanOrEqualTo(98);
  }

  @Test
  void theLaterFibreIsDoubtedWithItsReadingsAndNobodyIsAccused() {
    HonestJobs honest = job(20_003);
    honest.lengths = Lengths.MEASURED;
    honest.oneLength = false;
    JobFixture job = Planting.copy(honest.fixture(), Map.of("K021/1", "K020/1"));
    List<Doubt> doubts = doubts(job);
    assertThat(doubts).hasSize(1);
    Doubt doubt = doubts.get(0);
    assertThat(doubt.subject().id()).isEqualTo("K021/1");
    assertThat(doubt.blocking()).isTrue();
    assertThat(doubt.reach().readings()).hasSize(4).allMatch(AssessedReading::current);
    assertThat(doubt.reach().fibres()).extracting(Object::toString).containsExactly("K021/1");
    assertThat(doubt.line()).contains("cannot be told from a repeat of K020/1");
    assertThat(doubt.next().what()).contains("a witnessed retest of link K021 is suggested");
  }

  @Test
  void allFibresAlikeTellNothing() {
    HonestJobs honest = job(20_004);
    JobFixture job =
        honest.fixture().change(r -> true, JobFixture.loss(r -> r.wavelength().nm() / 4000.0));
    assertThat(doubts(job)).isEmpty();
  }

  @Test
  void deadFibresAtTheFloorOfTheInstrumentAreNoRepeat() {
    HonestJobs honest = job(20_005);
    Set<String> dead = Set.of("K010/1", "K010/2", "K011/1", "K011/2", "K012/1");
    JobFixture job =
        honest
            .fixture()
            .change(r -> dead.contains(r.fibreId().toString()), JobFixture.loss(r -> 55.0));
    assertThat(doubts(job)).isEmpty();
  }

  @Test
  void whatRepeatsDoesNotHangOnTheOrderOfTheFile() {
    HonestJobs byTime = job(20_006);
    byTime.lengths = Lengths.MEASURED;
    HonestJobs shuffled = job(20_006);
    shuffled.lengths = Lengths.MEASURED;
    shuffled.sorted = Sorted.AT_RANDOM;
    Map<String, String> copies = Map.of("K021/1", "K020/1", "K021/2", "K020/2");
    assertThat(subjects(Planting.copy(shuffled.fixture(), copies)))
        .isEqualTo(subjects(Planting.copy(byTime.fixture(), copies)))
        .containsExactlyInAnyOrder("K021/1", "K021/2");
  }

  private static Set<String> subjects(JobFixture job) {
    return doubts(job).stream().map(d -> d.subject().id()).collect(Collectors.toSet());
  }
}
