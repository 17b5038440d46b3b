package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.at;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static ferrule.core.plant.Direction.B_TO_A;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Who is suspected first: the zero when many readings move together, the fibre when one does. */
class SuspicionTest {

  private static List<Doubt> doubts(JobFixture job, DoubtKind kind) {
    return Judge.judge(job.job()).doubts().stream().filter(d -> d.kind() == kind).toList();
  }

  private static double measure(Doubt doubt, String name) {
    return doubt.evidence().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> ((Evidence.Measure) e).value())
        .findFirst()
        .orElseThrow();
  }

  /** Twelve fibres; A-B under Z1, B-A under Z2, as two crews with a source each leave it. */
  private static JobFixture twoZeros() {
    return JobFixture.singleMode()
        .link("K001", 12, 150)
        .zero(ZeroFixture.zero("Z1").directions(A_TO_B))
        .zero(ZeroFixture.zero("Z2").directions(B_TO_A).source("S2").launch("L2").receive("R2"))
        .readAll("Z1", 1310, 1550)
        .change(
            towards(B_TO_A),
            r ->
                reading(
                    r.link(),
                    r.fibre(),
                    B_TO_A,
                    r.wavelength().nm(),
                    r.lossDb(),
                    "Z2",
                    r.measuredAt()));
  }

  @Test
  void oneFibreThatLosesMoreAtTheLongerWavelengthIsABend() {
    Doubt doubt =
        doubts(
                twoZeros()
                    .change(
                        of("K001/3").and(at(1550)).and(towards(A_TO_B)),
                        loss(r -> r.lossDb() + 0.25)),
                DoubtKind.WAVELENGTH_ORDER)
            .get(0);
    assertThat(doubt.causes().get(0).cause()).startsWith("a bend");
    assertThat(doubt.next().what()).contains("relax the fibre");
    assertThat(measure(doubt, "fibres_of_zero_alike")).isEqualTo(1);
    assertThat(measure(doubt, "fibres_of_zero")).isEqualTo(12);
  }

  @Test
  void manyFibresOfOneZeroThatDoSoPointToTheZero() {
    List<Doubt> doubts =
        doubts(
            twoZeros().change(at(1550).and(towards(A_TO_B)), loss(r -> r.lossDb() + 0.25)),
            DoubtKind.WAVELENGTH_ORDER);
    assertThat(doubts).hasSize(12);
    assertThat(doubts)
        .allSatisfy(
            doubt -> {
              assertThat(measure(doubt, "fibres_of_zero_alike")).isEqualTo(12);
              assertThat(measure(doubt, "fibres_of_zero")).isEqualTo(12);
              assertThat(doubt.causes().get(0).cause()).startsWith("zero Z1 is wrong");
              assertThat(doubt.next().key()).isEqualTo("verify:Z1");
            });
  }

  @Test
  void aLargeBendIsAllButCertain() {
    Doubt doubt =
        doubts(
                twoZeros().change(of("K001/3").and(at(1550)), loss(r -> r.lossDb() + 0.7)),
                DoubtKind.WAVELENGTH_ORDER)
            .get(0);
    assertThat(doubt.causes().get(0).cause()).startsWith("a bend");
    assertThat(doubt.causes().get(0).weight()).isGreaterThan(0.9);
  }

  @Test
  void anOffsetThatAllFibresShareIsNoGapOfOneFibre() {
    assertThat(
            doubts(
                twoZeros().change(towards(A_TO_B), loss(r -> r.lossDb() + 0.35)),
                DoubtKind.DIRECTION_GAP))
        .isEmpty();
  }

  @Test
  void aNegativeLossPointsToItsZeroFirst() {
    Doubt doubt =
        doubts(
                twoZeros().change(of("K001/1").and(towards(A_TO_B)), loss(r -> -0.3)),
                DoubtKind.BELOW_FLOOR)
            .get(0);
    assertThat(doubt.causes().get(0).cause()).startsWith("zero Z1 was set with a dirty");
    assertThat(doubt.next().key()).isEqualTo("verify:Z1");
  }

  @Test
  void theSizeOfAShortfallSortsItsCauses() {
    assertThat(causeAt(-12)).isEqualTo("source on modulated output");
    assertThat(causeAt(-25)).isEqualTo("single-mode cord on a multimode source");
    assertThat(causeAt(-9.4)).isEqualTo("dirty source port or launch end");
    assertThat(causeAt(-1)).startsWith("another source or another cord");
  }

  /** Two zeros, each both ways with one source: one other zero is on record, not three. */
  @Test
  void aZeroIsNotItsOwnHistory() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .link("K002", 1, 150)
            .zero(ZeroFixture.zero("Z1").power(-6))
            .zero(ZeroFixture.zero("Z2").power(-6.7).at(MORNING.plus(Duration.ofHours(2))))
            .readAll("Z1", MORNING, l -> l.id().equals("K001"), 1310, 1550)
            .readAll(
                "Z2", MORNING.plus(Duration.ofHours(2)), l -> l.id().equals("K002"), 1310, 1550);
    List<Doubt> doubts = doubts(job, DoubtKind.ZERO_POWER);
    assertThat(doubts)
        .isNotEmpty()
        .allSatisfy(
            doubt -> {
              assertThat(doubt.subject()).isEqualTo(Subject.reference("Z2"));
              assertThat(measure(doubt, "other_zeros")).isEqualTo(1);
            });
  }

  private static String causeAt(double dbm) {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").power(dbm))
            .readAll("Z1", MORNING.plus(Duration.ofMinutes(5)), l -> true, 1310, 1550);
    return doubts(job, DoubtKind.ZERO_POWER).get(0).causes().get(0).cause();
  }

  @Test
  void theKindOfACordNotOnRecordFollowsTheWavelength() {
    JobFixture job =
        JobFixture.multimode()
            .link("K001", ferrule.core.optics.FibreCategory.OM4, 1, 100)
            .zero(ZeroFixture.multimode("Z1").categoryNotOnRecord())
            .readAll("Z1", 850, 1300);
    // -20 dBm is a healthy multimode level, and no single-mode one.
    assertThat(Judge.judge(job.job()).doubts()).isEmpty();
  }
}
