package ferrule.core.trust;

import static ferrule.core.trust.ShiftedJobs.under;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class VerificationIntervalTest {

  /**
   * Rules of thumb for verification, worked out by the same formula: 5 minutes to verify, 3 to
   * retest, one event in 500 links gives about 40 links, one in 2000 about 80.
   */
  @Test
  void theFormulaGivesTheRulesOfThumb() {
    assertThat(VerificationInterval.cheapest(5, 1 / 500.0, 3)).isCloseTo(40, within(1.0));
    assertThat(VerificationInterval.cheapest(5, 1 / 2000.0, 3)).isCloseTo(80, within(2.0));
  }

  @Test
  void noWholeNumberOfLinksCostsLess() {
    double rate = 1 / 500.0;
    int cheapest =
        IntStream.rangeClosed(1, 1000)
            .boxed()
            .min((a, b) -> Double.compare(cost(a, rate), cost(b, rate)))
            .orElseThrow();
    assertThat(VerificationInterval.cheapest(5, rate, 3)).isCloseTo(cheapest, within(0.5));
  }

  /**
   * Minutes a link: a verification every n links; an event is noticed n/2 links late on average.
   */
  private static double cost(int n, double rate) {
    return 5.0 / n + rate * 3 * n / 2;
  }

  @Test
  void withNothingCountedThePriorDecides() {
    VerificationInterval none = VerificationInterval.of(0, 0);
    assertThat(none.links()).isCloseTo(40.8, within(0.05));
    // Gamma(1, 500) is exponential: its quantiles are -ln(1 - p)/500.
    assertThat(none.low()).isCloseTo(Math.sqrt(10 / 3.0 * 500 / -Math.log(0.05)), within(1e-6));
    assertThat(none.high()).isCloseTo(Math.sqrt(10 / 3.0 * 500 / -Math.log(0.95)), within(1e-6));
    assertThat(none.shown()).isEqualTo("every 41 links");
    assertThat(VerificationInterval.of(0, 20).links()).isCloseTo(41.6, within(0.05));
  }

  @Test
  void eventsShortenItAndQuietLinksLengthenIt() {
    VerificationInterval none = VerificationInterval.of(0, 200);
    VerificationInterval three = VerificationInterval.of(3, 200);
    VerificationInterval quiet = VerificationInterval.of(0, 5000);
    assertThat(three.links()).isLessThan(none.links());
    assertThat(quiet.links()).isGreaterThan(none.links());
    for (VerificationInterval one : new VerificationInterval[] {none, three, quiet}) {
      assertThat(one.low()).isLessThan(one.links());
      assertThat(one.high()).isGreaterThan(one.links());
    }
    assertThat(three.high() / three.low()).isLessThan(none.high() / none.low());
    assertThat(VerificationInterval.of(1_000_000, 1).shown()).isEqualTo("after every link");
  }

  @Test
  void aZeroFoundChangedIsOneEventHoweverManyDoubtsSpeakOfIt() {
    Judgement honest = Judge.judge(ShiftedJobs.honest().job());
    assertThat(VerificationInterval.of(honest))
        .isEqualTo(VerificationInterval.of(0, ShiftedJobs.LINKS));
    Judgement shifted = Judge.judge(ShiftedJobs.lifted(under("Z2"), -0.4).job());
    assertThat(VerificationInterval.of(shifted))
        .isEqualTo(VerificationInterval.of(1, ShiftedJobs.LINKS));
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 12, 150)
            .link("K002", 2, 150)
            .zero(ZeroFixture.zero("Z1").verification(0.6))
            .readAll(
                "Z1", ferrule.core.fixture.JobFixture.MORNING, l -> l.id().equals("K001"), 1310);
    assertThat(VerificationInterval.of(Judge.judge(job.job())))
        .isEqualTo(VerificationInterval.of(1, 1));
  }
}
