package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.plant.FibreId;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.RulebookReader;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.uncertainty.DecisionRule;
import org.junit.jupiter.api.Test;

/** What another requirement would change, and nothing else. */
class RejudgedTest {

  private static Judgement agreed(double moreDb) {
    JobFixture job = JobFixture.singleMode().link("K001", 2, 150).link("K002", 2, 150);
    job.zero(ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
    JobFixture changed = job.change(of("K002/1"), r -> loss(x -> x.lossDb() + moreDb).apply(r));
    return Judge.judge(changed.job());
  }

  @Test
  void theSameRequirementChangesNothing() {
    Judgement agreed = agreed(0.5);
    Rejudged again = Rejudged.of(agreed, agreed.ledger().requirement());
    assertThat(again.changes()).isEmpty();
    assertThat(again.limitMovesDb()).isEmpty();
    assertThat(again.supposed().totals()).isEqualTo(agreed.totals());
  }

  /** A loss within the expanded uncertainty of the limit is undecided under guarded rules only. */
  @Test
  void aReadingNearTheLimitChangesWithTheDecisionRule() {
    Judgement plain = agreed(0);
    AssessedReading reading = plain.fibre(new FibreId("K002", 1)).orElseThrow().readings().get(0);
    Judgement agreed = agreed(reading.marginDb() - 0.01);
    Rejudged guarded = Rejudged.of(agreed, agreed.ledger().requirement().by(DecisionRule.GUARDED));
    assertThat(guarded.changes()).hasSize(1);
    assertThat(guarded.changes().get(0).agreed().fibre().toString()).isEqualTo("K002/1");
    assertThat(guarded.changes().get(0).readings()).isNotEmpty();
    assertThat(guarded.limitMovesDb()).isEmpty();
    assertThat(agreed.ledger().requirement().decision()).isEqualTo(DecisionRule.SIMPLE);
  }

  /** An owner who allows 0.9 dB/km in place of 0.4 moves the limit of 150 m by 0.075 dB. */
  @Test
  void limitsMoveByTheGlassAllowedTimesTheLength() {
    Judgement agreed = agreed(0);
    String own =
        ShippedRulebooks.text("iso-11801-1")
            .orElseThrow()
            .replace("limit_db_per_km = 0.4", "limit_db_per_km = 0.9");
    Rulebook other = RulebookReader.read("own.toml", own).rulebook().orElseThrow();
    Rejudged rejudged = Rejudged.of(agreed, agreed.ledger().requirement().by(other));
    assertThat(rejudged.limitMovesDb()).hasSize(agreed.ledger().readings().size());
    for (double move : rejudged.limitMovesDb()) {
      assertThat(move).isCloseTo(0.15 * (0.9 - 0.4), within(1e-9));
    }
  }
}
