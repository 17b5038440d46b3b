package ferrule.core.trust.many;

import static ferrule.core.fixture.JobFixture.MORNING;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.many.HonestJobs.Sorted;
import ferrule.core.trust.many.HonestJobs.Stamps;
import ferrule.core.zero.Reading;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ClockTest {

  private static HonestJobs job(long seed) {
    HonestJobs job = new HonestJobs(seed);
    job.fibresALink = 2;
    job.links = 55;
    job.severalCrews = false;
    job.directionByDirection = false;
    job.stamps = Stamps.EACH_READING;
    job.sorted = Sorted.BY_TIME;
    return job;
  }

  private static List<Doubt> doubts(JobFixture job) {
    List<Doubt> doubts = new ArrayList<>();
    Ledger ledger = Ledger.of(job.job());
    new ClockFinder(new Timeline(ledger)).find(ledger, doubts::add);
    return doubts;
  }

  private static Predicate<Reading> links(int first, int last) {
    return r ->
        r.link().compareTo(Planting.link(first)) >= 0
            && r.link().compareTo(Planting.link(last)) <= 0;
  }

  @ParameterizedTest
  @ValueSource(longs = {1200, 1800, 3600, 7200, 86_400, 259_200})
  void aBlockSetBackIsFoundToTheReading(long seconds) {
    int exact = 0;
    for (int seed = 0; seed < 40; seed++) {
      HonestJobs honest = job(40_000 + seed);
      int last = 36 + honest.random.nextInt(12);
      Predicate<Reading> block = links(30, last);
      JobFixture job = Planting.shift(honest.fixture(), block, -seconds);
      List<Doubt> doubts = doubts(job);
      if (doubts.size() != 1) {
        continue;
      }
      Doubt doubt = doubts.get(0);
      assertThat(doubt.subject().id()).isEqualTo("M0");
      assertThat(doubt.blocking()).isTrue();
      Set<Integer> expected = new TreeSet<>();
      for (int i = 0; i < job.readings().size(); i++) {
        if (block.test(job.readings().get(i))) {
          expected.add(i);
        }
      }
      exact +=
          doubt.reach().readings().stream()
                  .map(r -> r.index())
                  .collect(Collectors.toSet())
                  .equals(expected)
              ? 1
              : 0;
    }
    assertThat(exact).isGreaterThanOrEqualTo(38);
  }

  /**
   * Three links set back by two links or so stand, mostly, where the clock says others were read.
   */
  @Test
  void aShortBlockThatOverlapsOthersIsMostlyFound() {
    int found = 0;
    for (int seed = 0; seed < 40; seed++) {
      HonestJobs honest = job(43_000 + seed);
      Predicate<Reading> block = links(30, 32);
      List<Doubt> doubts = doubts(Planting.shift(honest.fixture(), block, -540));
      found +=
          doubts.size() == 1
                  && doubts.get(0).reach().readings().stream()
                      .anyMatch(r -> block.test(r.reading()))
              ? 1
              : 0;
    }
    assertThat(found).isGreaterThanOrEqualTo(26);
  }

  /** The same times, but the links were tested in that order: nothing overlaps, nothing is left. */
  @Test
  void aPanelTestedFirstAndSortedLaterIsHonest() {
    for (int seed = 0; seed < 40; seed++) {
      HonestJobs honest = job(41_000 + seed);
      JobFixture job = honest.fixture();
      List<Reading> early = job.readings().stream().filter(links(1, 10)).toList();
      List<Reading> late = job.readings().stream().filter(links(11, 55)).toList();
      JobFixture sorted = bare(job);
      late.subList(0, 200).forEach(sorted::reading);
      early.forEach(sorted::reading);
      late.subList(200, late.size()).forEach(sorted::reading);
      assertThat(doubts(sorted)).isEmpty();
    }
  }

  private static JobFixture bare(JobFixture job) {
    JobFixture bare = JobFixture.singleMode();
    job.job().links().forEach(bare::link);
    job.job().zeros().forEach(bare::zero);
    return bare;
  }

  @Test
  void allReadingsBeforeTheirZerosByTheSameTimeAreAClock() {
    HonestJobs honest = job(42_000);
    honest.links = 120;
    JobFixture job = Planting.shift(honest.fixture(), r -> true, -8 * 3600);
    assertThat(doubts(job))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.line()).contains("before its zeros");
              assertThat(d.reach().readings()).hasSize(120 * 8);
            });
  }

  /** Two crews, each with its zero, handed in with one meter: in part at the same time. */
  @Test
  void oneMeterInTwoPlacesAtOnceIsFoundInAnyOrder() {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 60; i++) {
      job.link(Planting.link(i), 1, 150);
    }
    job.zero(ZeroFixture.zero("Z1")).zero(ZeroFixture.zero("Z2").source("S2"));
    job.readAll("Z1", MORNING.plusSeconds(1200), l -> l.id().compareTo("K050") <= 0, 1310, 1550);
    job.readAll("Z2", MORNING.plusSeconds(2407), l -> l.id().compareTo("K050") > 0, 1310, 1550);
    JobFixture byTime = bare(job);
    List<Reading> readings = new ArrayList<>(job.readings());
    readings.sort(Comparator.comparing(Reading::measuredAt));
    readings.forEach(byTime::reading);
    assertThat(doubts(job))
        .singleElement()
        .satisfies(
            d ->
                assertThat(d.reach().readings())
                    .hasSize(40)
                    .allMatch(r -> r.reading().reference().equals("Z2")));
    assertThat(doubts(byTime))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.line()).contains("two links were read at once");
              assertThat(d.reach().readings())
                  .filteredOn(r -> r.reading().reference().equals("Z2"))
                  .hasSize(40);
            });
  }
}
