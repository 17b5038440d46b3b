package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.TreeFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Standing;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Planted trouble in an invented tree of two stages: head, 1x4, four times 1x8, six drops each. */
class SplitterFinderTest {

  private static List<Doubt> found(JobFixture job) {
    List<Doubt> doubts = new ArrayList<>();
    new SplitterFinder().find(Ledger.of(job.job()), doubts::add);
    return doubts;
  }

  @Test
  void cleanTreesRingNothing() {
    for (long seed = 0; seed < 200; seed++) {
      assertThat(found(TreeFixture.job(seed, id -> 0))).as("seed " + seed).isEmpty();
    }
  }

  @Test
  void aLegOneHalvingOffIsNamedAndHeldBackOnlyIfItLosesTooLittle() {
    for (double step : new double[] {-3.3, 3.3}) {
      for (long seed = 0; seed < 20; seed++) {
        List<Doubt> found = found(TreeFixture.job(seed, id -> id.equals("B3") ? step : 0));
        if (found.isEmpty()) {
          continue; // its own scatter took it out of the window; counted below
        }
        assertThat(found).hasSize(1);
        Doubt doubt = found.get(0);
        assertThat(doubt.kind()).isEqualTo(DoubtKind.SPLITTER_STEP);
        assertThat(doubt.subject().id()).isEqualTo("B3");
        assertThat(doubt.blocking()).isEqualTo(step < 0);
        assertThat(doubt.reach().fibres()).hasSize(1);
      }
      long missed =
          java.util.stream.LongStream.range(0, 20)
              .filter(
                  seed -> found(TreeFixture.job(seed, id -> id.equals("B3") ? step : 0)).isEmpty())
              .count();
      assertThat(missed).isLessThanOrEqualTo(2);
    }
  }

  @Test
  void allLegsOfOneSplitterHighAreToldOnceAtThatSplitter() {
    for (long seed = 0; seed < 20; seed++) {
      List<Doubt> found = found(TreeFixture.job(seed, id -> id.startsWith("C") ? 2.6 : 0));
      assertThat(found).hasSize(1);
      assertThat(found.get(0).kind()).isEqualTo(DoubtKind.SPLITTER_HIGH);
      assertThat(found.get(0).subject().id()).isEqualTo("C");
      assertThat(found.get(0).reach().fibres()).hasSize(6);
      assertThat(found.get(0).blocking()).isFalse();
    }
  }

  @Test
  void allLegsOfTheTreeHighAreToldOnceAtItsHeadAndAnOddLegBesides() {
    List<Doubt> found = found(TreeFixture.job(4, id -> id.equals("D2") ? 2.5 - 3.2 : 2.5));
    assertThat(found).extracting(d -> d.subject().id()).containsExactly("F", "D2");
    assertThat(found.get(0).reach().fibres()).hasSize(23);
    List<Doubt> all = found(TreeFixture.job(4, id -> 2.5));
    assertThat(all).hasSize(1);
    assertThat(all.get(0).subject().id()).isEqualTo("F");
    assertThat(all.get(0).reach().fibres()).hasSize(24);
  }

  @Test
  void aTreeWithALoopHoldsItsReadingsBackAndSaysWhy() {
    JobFixture job = JobFixture.singleMode();
    job.link(TreeFixture.link("X", 100, List.of(), "Y"));
    job.link(TreeFixture.link("Y", 100, List.of(), "X"));
    job.zero(ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
    var judgement = Judge.judge(job.job());
    assertThat(judgement.totals()).containsEntry(Standing.DOUBTFUL, 2);
    assertThat(judgement.doubts())
        .filteredOn(d -> d.kind() == DoubtKind.PAPER_CONFLICT)
        .singleElement()
        .satisfies(d -> assertThat(d.line()).contains("a loop: X fed by Y fed by X"));
  }
}
