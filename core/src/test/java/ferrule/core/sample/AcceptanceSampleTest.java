package ferrule.core.sample;

import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What is drawn: reproducible, from every part, with those that are always looked at. */
class AcceptanceSampleTest {

  private static Judgement judgement() {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 40; i++) {
      job.link("K%03d".formatted(i), 2, 100 + i);
    }
    job.zero(ZeroFixture.zero("Z1"))
        .readAll(
            "Z1", JobFixture.MORNING.plusSeconds(1200), l -> !l.id().equals("K020"), 1310, 1550);
    JobFixture changed = job.change(of("K007/2"), r -> loss(x -> x.lossDb() + 0.6).apply(r));
    return Judge.judge(changed.job());
  }

  private static AcceptanceSample drawn(Judgement judgement, int size, long seed) {
    return AcceptanceSample.of(judgement, size, seed, new SplittableRandom(seed)::nextInt);
  }

  private static Set<String> fibres(AcceptanceSample sample) {
    return sample.drawn().stream()
        .map(d -> d.fibre().fibre().toString())
        .collect(Collectors.toSet());
  }

  @Test
  void theSameSeedDrawsTheSameFibresAndAnotherOthers() {
    Judgement judgement = judgement();
    AcceptanceSample one = drawn(judgement, 12, 5);
    assertThat(one.size()).isEqualTo(12);
    assertThat(one.lot()).isEqualTo(78);
    assertThat(one.unread()).isEqualTo(2);
    assertThat(fibres(drawn(judgement, 12, 5))).isEqualTo(fibres(one));
    assertThat(fibres(drawn(judgement, 12, 6))).isNotEqualTo(fibres(one));
  }

  @Test
  void theLongestTheNearestAndTheMarginalAreAlwaysInIt() {
    for (long seed = 0; seed < 20; seed++) {
      assertThat(fibres(drawn(judgement(), 4, seed))).contains("K040/1", "K001/1", "K007/2");
    }
  }

  @Test
  void everyFibreIsDrawnAsOftenAsAnyOther() {
    Judgement judgement = judgement();
    int[] counts = new int[80];
    int draws = 4000;
    for (long seed = 0; seed < draws; seed++) {
      for (Drawn drawn : drawn(judgement, 13, seed).drawn()) {
        if (drawn.why() == Drawn.Why.DRAWN) {
          counts[drawn.fibre().slot()]++;
        }
      }
    }
    // Ten of 75: 533 of 4,000, standard deviation 21.5; 75 fibres within five of these.
    List<Integer> drawn = Arrays.stream(counts).filter(c -> c > 0).boxed().toList();
    assertThat(drawn).hasSize(75).allMatch(c -> Math.abs(c - 533) < 108);
  }

  @Test
  void aLotSmallerThanTheSampleIsReadWhole() {
    AcceptanceSample all = drawn(judgement(), 500, 1);
    assertThat(all.size()).isEqualTo(78);
    assertThat(all.missed(1)).isZero();
  }

  @Test
  void partsGetTheirShareAndNoneIsLeftOut() {
    assertThat(AcceptanceSample.shares(new int[] {60, 30, 10}, 10)).containsExactly(6, 3, 1);
    assertThat(AcceptanceSample.shares(new int[] {98, 1, 1}, 10)).containsExactly(8, 1, 1);
    assertThat(AcceptanceSample.shares(new int[] {5, 50, 20}, 2)).containsExactly(0, 1, 1);
    assertThat(AcceptanceSample.shares(new int[] {2, 2}, 4)).containsExactly(2, 2);
    assertThat(AcceptanceSample.shares(new int[] {4}, 0)).containsExactly(0);
  }
}
