package ferrule.core.trust.many;

import static ferrule.core.fixture.JobFixture.MORNING;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

class MomentsTest {

  private static Ledger readAt(Function<SplittableRandom, Instant> time, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 20; i++) {
      job.link(Planting.link(i), 2, 150);
    }
    return Ledger.of(
        job.zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", 1310, 1550)
            .change(r -> true, r -> JobFixture.time(time.apply(random)).apply(r))
            .job());
  }

  private static void isInOrder(Ledger ledger) {
    List<AssessedReading> sorted = new ArrayList<>(ledger.readings());
    sorted.sort(
        Comparator.comparing((AssessedReading r) -> r.reading().measuredAt())
            .thenComparingInt(AssessedReading::index));
    Moments moments = new Moments(ledger);
    List<Integer> order = new ArrayList<>();
    for (int place = 0; place < moments.size(); place++) {
      order.add(moments.at(place));
      assertThat(moments.rank(moments.at(place))).isEqualTo(place);
    }
    assertThat(order)
        .containsExactlyElementsOf(sorted.stream().map(AssessedReading::index).toList());
  }

  @Test
  void secondsAndNanosecondsAreSortedAndOfOneInstantTheFirstHandedInComesFirst() {
    for (long seed = 0; seed < 20; seed++) {
      isInOrder(readAt(r -> MORNING.plusSeconds(r.nextInt(100)), seed));
      isInOrder(readAt(r -> MORNING.plusSeconds(r.nextInt(9)).plusNanos(r.nextInt(3)), seed));
      isInOrder(readAt(r -> MORNING.plusNanos(r.nextInt(1_000_000_000)), seed));
    }
  }

  @Test
  void yearsBeyondReasonAreSortedToo() {
    isInOrder(
        readAt(
            r ->
                switch (r.nextInt(3)) {
                  case 0 -> Instant.MIN.plusSeconds(r.nextInt(9));
                  case 1 -> Instant.MAX.minusSeconds(r.nextInt(9)).minusNanos(r.nextInt(9));
                  default -> MORNING.plusSeconds(r.nextInt(9));
                },
            3));
  }

  @Test
  void linksOfOneNameShareANumberWhetherScheduledOrNot() {
    JobFixture job = JobFixture.singleMode().link("K001", 2, 150).link("K002", 2, 150);
    job.zero(ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
    job.change(r -> r.link().equals("K001") && r.fibre() == 2, JobFixture.named("K001", 7));
    job.change(JobFixture.of("K002/2").and(JobFixture.at(1310)), JobFixture.named("X9", 1));
    job.change(JobFixture.of("K002/2").and(JobFixture.at(1550)), JobFixture.named("X9", 2));
    Ledger ledger = Ledger.of(job.job());
    Moments moments = new Moments(ledger);
    for (AssessedReading one : ledger.readings()) {
      assertThat(moments.link(one.index())).isLessThan(moments.links());
      for (AssessedReading other : ledger.readings()) {
        assertThat(moments.link(one.index()) == moments.link(other.index()))
            .isEqualTo(one.reading().link().equals(other.reading().link()));
      }
    }
  }
}
