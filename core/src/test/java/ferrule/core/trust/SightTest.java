package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.trust.PanelJobs.Wrong;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a job's readings would show is known before anything is found, and holds when it is. */
class SightTest {

  private static List<Sight> sights(PanelJobs job) {
    return job.judged().estimate().sights();
  }

  private static Sight shift(List<Sight> sights, String zero) {
    return sights.stream()
        .filter(s -> s.kind() == DoubtKind.ZERO_SHIFT && s.subject().id().equals(zero))
        .findFirst()
        .orElseThrow();
  }

  /**
   * Area under the normal curve from 0 to 2.05 and 2.06: 0.47982 and 0.48030 (NIST/SEMATECH
   * e-Handbook of Statistical Methods, 1.3.6.7.1), so 98 % lies below a z between them.
   */
  @Test
  void whatIsSaidToShowIsToldNinetyEightTimesInAHundred() {
    Sight sight = new Sight(DoubtKind.ZERO_SHIFT, Subject.reference("Z1"), 0.1, 0.02);
    assertThat((sight.shownFromDb() - 0.1) / 0.02).isBetween(2.05, 2.06);
    assertThat(sight.chanceOf(sight.shownFromDb())).isCloseTo(0.98, within(1e-9));
    assertThat(sight.chanceOf(0.1)).isCloseTo(0.5, within(1e-9));
    assertThat(sight.chanceOf(-0.1)).isEqualTo(sight.chanceOf(0.1));
    // From the same table: 0.84134 lies below z = 1.
    assertThat(sight.chanceOf(0.12)).isCloseTo(0.84134, within(1e-5));
  }

  @Test
  void aShiftOfTheSizeThatWouldShowIsFoundInNearlyEveryJob() {
    int found = 0;
    int jobs = 40;
    for (long seed = 1; seed <= jobs; seed++) {
      double size =
          shift(sights(new PanelJobs(seed, 3, true, Wrong.NOTHING, 0)), "Z2").shownFromDb();
      boolean named =
          new PanelJobs(seed, 3, true, Wrong.ZERO, size)
              .judged().doubts().stream()
                  .anyMatch(
                      d ->
                          d.kind() == DoubtKind.ZERO_SHIFT
                              && d.subject().equals(Subject.reference("Z2")));
      found += named ? 1 : 0;
    }
    // Of 40 with a chance of 98 % each, 37 or more are found in 99 of 100 such tests.
    assertThat(found).isGreaterThanOrEqualTo(37);
  }

  @Test
  void whatIsThereDoesNotChangeWhatWouldShow() {
    Sight clean = shift(sights(new PanelJobs(1, 3, true, Wrong.NOTHING, 0)), "Z2");
    Sight with = shift(sights(new PanelJobs(1, 3, true, Wrong.ZERO, 0.3)), "Z2");
    assertThat(with.shownFromDb()).isCloseTo(clean.shownFromDb(), within(0.015));
  }

  @Test
  void aSingleZeroShowsNoShiftOfItsOwnButStepsAndDrifts() {
    List<Sight> sights = sights(new PanelJobs(1, 1, false, Wrong.NOTHING, 0));
    assertThat(sights)
        .extracting(Sight::kind)
        .contains(DoubtKind.LEVEL_STEP, DoubtKind.LEVEL_DRIFT, DoubtKind.DIRECTION_BIAS)
        .doesNotContain(DoubtKind.ZERO_SHIFT);
    assertThat(Sight.ofZeros(sights)).isEmpty();
    assertThat(Sight.ofZero(sights, "Z1")).startsWith("What its readings would show");
    assertThat(Sight.ofZero(sights, "Z9")).startsWith("Too little was read under it");
  }

  @Test
  void aJobWithoutReadingsEnoughShowsNothing() {
    Judgement judgement = Judge.judge(JobFixture.singleMode().job());
    assertThat(judgement.estimate().sights()).isEmpty();
  }

  @Test
  void theZeroThatWouldShowLeastIsNamedBesideTheOneThatWouldShowMost() {
    List<Sight> sights =
        List.of(
            new Sight(DoubtKind.ZERO_SHIFT, Subject.reference("Z1"), 0.10, 0.02),
            new Sight(DoubtKind.ZERO_SHIFT, Subject.reference("Z2"), 0.40, 0.10));
    assertThat(Sight.ofZeros(sights)).contains("at 0.14 dB (Z1) at best and 0.61 dB (Z2) at worst");
  }
}
