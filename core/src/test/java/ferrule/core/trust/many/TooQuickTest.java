package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.many.HonestJobs.Sorted;
import ferrule.core.trust.many.HonestJobs.Stamps;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class TooQuickTest {

  private static HonestJobs job(long seed, Stamps stamps) {
    HonestJobs job = new HonestJobs(seed);
    job.fibresALink = 2;
    job.links = 100;
    job.severalCrews = false;
    job.directionByDirection = false;
    job.stamps = stamps;
    return job;
  }

  private static List<Doubt> doubts(JobFixture job) {
    List<Doubt> doubts = new ArrayList<>();
    Ledger ledger = Ledger.of(job.job());
    new TooQuickFinder(new Timeline(ledger)).find(ledger, doubts::add);
    return doubts;
  }

  @ParameterizedTest
  @CsvSource({"1, 0", "1, 8", "5, 0", "5, 4", "5, 8", "15, 4", "20, 4"})
  void hurriedLinksAreFoundAndNoOther(int links, long seconds) {
    int found = 0;
    for (int seed = 0; seed < 25; seed++) {
      JobFixture job = job(30_000 + seed, Stamps.EACH_READING).fixture();
      Set<String> rung = new TreeSet<>();
      doubts(Planting.hurry(job, 20, links, seconds))
          .forEach(d -> d.reach().fibres().forEach(f -> rung.add(f.link())));
      Set<String> hurried = new TreeSet<>();
      for (int i = 20; i < 20 + links; i++) {
        hurried.add(Planting.link(i));
      }
      found += rung.equals(hurried) ? 1 : 0;
    }
    assertThat(found).isGreaterThanOrEqualTo(24);
  }

  @ParameterizedTest
  @EnumSource(Sorted.class)
  void theOrderOfTheFileDoesNotMatter(Sorted sorted) {
    HonestJobs honest = job(30_100, Stamps.EACH_READING);
    honest.sorted = sorted;
    JobFixture job = Planting.hurry(honest.fixture(), 30, 2, 5);
    assertThat(doubts(job))
        .isNotEmpty()
        .allSatisfy(
            d -> {
              assertThat(d.subject().id()).matches("K03[01]/[12]");
              assertThat(d.blocking()).isFalse();
              assertThat(d.next().what()).contains("a witnessed retest is suggested");
            });
  }

  @ParameterizedTest
  @EnumSource(
      value = Stamps.class,
      names = {"MINUTES", "ALL_ALIKE"})
  void stampsThatTellNothingSayNothing(Stamps stamps) {
    assertThat(doubts(Planting.hurry(job(30_200, stamps).fixture(), 20, 5, 2))).isEmpty();
  }

  /** Where most links were hurried the rest still tells the pace: one spell, not pairs. */
  @ParameterizedTest
  @CsvSource({"12, true", "2, false"})
  void hurryThroughMostOfAJobIsFoundIfItIsOneSpell(int inARow, boolean found) {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 20; i++) {
      job.link(Planting.link(i), 1, 150);
    }
    job.zero(ferrule.core.fixture.ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
    long at = 600;
    Set<String> hurried = new TreeSet<>();
    for (int i = 1; i <= 20; i++) {
      // Three of five gaps are short, in one spell or scattered.
      boolean quick = inARow == 12 ? i > 4 && i <= 16 : i % 5 != 0 && i % 5 != 3;
      at += quick ? 4 : 90 + i;
      if (quick) {
        hurried.add(Planting.link(i));
      }
      String link = Planting.link(i);
      long then = at;
      job.change(
          r -> r.link().equals(link),
          r -> JobFixture.time(JobFixture.MORNING.plusSeconds(then)).apply(r));
    }
    Set<String> rung = new TreeSet<>();
    doubts(job).forEach(d -> d.reach().fibres().forEach(f -> rung.add(f.link())));
    assertThat(rung).isEqualTo(found ? hurried : Set.of());
  }

  /** An array lead reads a link in a few seconds and goes on to the next: that is its pace. */
  @Test
  void aPaceThatIsQuickThroughoutIsNoDoubt() {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 40; i++) {
      job.link(Planting.link(i), 1, 150);
    }
    job.zero(ferrule.core.fixture.ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
    JobFixture quick =
        job.change(
            r -> true,
            r ->
                JobFixture.time(
                        JobFixture.MORNING.plusSeconds(
                            600 + 8L * Integer.parseInt(r.link().substring(1))))
                    .apply(r));
    assertThat(doubts(quick)).isEmpty();
  }
}
