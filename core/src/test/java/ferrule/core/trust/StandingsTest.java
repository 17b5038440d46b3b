package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.at;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.time;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static ferrule.core.plant.Direction.B_TO_A;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.FibreId;
import ferrule.core.uncertainty.Decision;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

class StandingsTest {

  private static final Instant LATER = MORNING.plus(Duration.ofHours(2));
  private static final Predicate<Reading> FIRST_CASE =
      of("K001/1").and(at(1310)).and(towards(A_TO_B));

  /** Two fibres of 150 m, limit 1.56 dB. */
  private static JobFixture well() {
    return JobFixture.singleMode()
        .link("K001", 2, 150)
        .zero(ZeroFixture.zero("Z1"))
        .readAll("Z1", 1310, 1550);
  }

  private static FibreJudgement first(JobFixture job) {
    return Judge.judge(job.job()).fibre(new FibreId("K001", 1)).orElseThrow();
  }

  private static Standing standing(JobFixture job) {
    return first(job).standing();
  }

  @Test
  void aFibreReadInFullAcceptedAndUndoubtedIsProved() {
    Judgement judgement = Judge.judge(well().job());
    assertThat(judgement.allProved()).isTrue();
    assertThat(judgement.doubts()).isEmpty();
    assertThat(judgement.actions()).isEmpty();
    assertThat(judgement.totals())
        .isEqualTo(
            Map.of(Standing.PROVED, 2, Standing.FAILED, 0, Standing.DOUBTFUL, 0, Standing.OPEN, 0));
    assertThat(first(well()).reasons())
        .containsExactly("4 readings accepted; least margin 1.27 dB at 1310 nm A-B");
  }

  @Test
  void aBelievedRejectionFails() {
    FibreJudgement fibre = first(well().change(FIRST_CASE, loss(r -> 1.57)));
    assertThat(fibre.standing()).isEqualTo(Standing.FAILED);
    assertThat(fibre.reasons())
        .first()
        .isEqualTo("1310 nm A-B: 1.57 dB is over the limit of 1.56 dB");
  }

  @Test
  void aReadingEqualToItsLimitIsAccepted() {
    assertThat(standing(well().change(of("K001/1"), loss(r -> 0.06 + 2 * 0.75))))
        .isEqualTo(Standing.PROVED);
  }

  @Test
  void failedOutweighsDoubtful() {
    JobFixture job =
        well()
            .change(FIRST_CASE, loss(r -> 2.0))
            .change(of("K001/1").and(towards(B_TO_A)), time(MORNING.minusSeconds(60)));
    assertThat(standing(job)).isEqualTo(Standing.FAILED);
  }

  @Test
  void aRejectionThatIsDoubtedDoesNotFail() {
    FibreJudgement fibre =
        first(
            well()
                .change(FIRST_CASE, loss(r -> 2.0))
                .change(FIRST_CASE, time(MORNING.minusSeconds(60))));
    assertThat(fibre.standing()).isEqualTo(Standing.DOUBTFUL);
    assertThat(fibre.reasons()).first().asString().endsWith("but the reading is in doubt");
  }

  @Test
  void doubtfulOutweighsOpen() {
    JobFixture job =
        well()
            .change(FIRST_CASE, time(MORNING.minusSeconds(60)))
            .without(of("K001/1").and(at(1550)));
    assertThat(standing(job)).isEqualTo(Standing.DOUBTFUL);
  }

  @Test
  void failedOutweighsOpen() {
    JobFixture job = well().change(FIRST_CASE, loss(r -> 2.0)).without(of("K001/1").and(at(1550)));
    assertThat(standing(job)).isEqualTo(Standing.FAILED);
  }

  @Test
  void whatIsMissingLeavesItOpen() {
    FibreJudgement fibre = first(well().without(FIRST_CASE));
    assertThat(fibre.standing()).isEqualTo(Standing.OPEN);
    assertThat(fibre.reasons()).containsExactly("No reading at 1310 nm A-B");
    assertThat(first(well().without(of("K001/1"))).reasons())
        .containsExactly(
            "No reading at 1310 nm in either direction",
            "No reading at 1550 nm in either direction");
  }

  @Test
  void aRetestReplacesAndTheReplacedAttemptStaysListed() {
    FibreJudgement fibre =
        first(
            well()
                .change(FIRST_CASE, loss(r -> 2.0))
                .reading(reading("K001", 1, A_TO_B, 1310, 0.30, "Z1", LATER)));
    assertThat(fibre.standing()).isEqualTo(Standing.PROVED);
    assertThat(fibre.readings()).hasSize(5);
    AssessedReading old = fibre.readings().get(0);
    assertThat(old.current()).isFalse();
    assertThat(old.decision()).isEqualTo(Decision.REJECT);
    assertThat(old.lossDb()).isEqualTo(2.0);
    assertThat(fibre.current(A_TO_B, old.reading().wavelength()))
        .hasValueSatisfying(now -> assertThat(now.lossDb()).isEqualTo(0.30));
    assertThat(fibre.doubts()).extracting(Doubt::kind).containsExactly(DoubtKind.DOUBLE);
  }

  @Test
  void aWorseRetestReplacesToo() {
    assertThat(standing(well().reading(reading("K001", 1, A_TO_B, 1310, 2.0, "Z1", LATER))))
        .isEqualTo(Standing.FAILED);
  }

  @Test
  void theTimeOfReadingDecidesWhichCountsNotTheOrderHandedIn() {
    JobFixture job =
        well()
            .change(FIRST_CASE, time(LATER))
            .reading(reading("K001", 1, A_TO_B, 1310, 2.0, "Z1", MORNING.plusSeconds(600)));
    assertThat(standing(job)).isEqualTo(Standing.PROVED);
    assertThat(first(job).readings()).filteredOn(r -> !r.current()).hasSize(1);
  }

  @Test
  void underGuardedAcceptanceAReadingNearItsLimitStaysOpen() {
    JobFixture near = well().change(of("K001/1"), loss(r -> 1.50));
    assertThat(standing(near)).isEqualTo(Standing.PROVED);
    FibreJudgement guarded = first(near.decision(DecisionRule.GUARDED));
    assertThat(guarded.standing()).isEqualTo(Standing.OPEN);
    assertThat(guarded.reasons())
        .hasSize(4)
        .first()
        .asString()
        .matches(
            "1310 nm A-B: 1\\.50 dB lies within the uncertainty of 0\\.\\d\\d dB of the limit of"
                + " 1\\.56 dB");
    assertThat(standing(well().decision(DecisionRule.GUARDED))).isEqualTo(Standing.PROVED);
    assertThat(
            standing(well().decision(DecisionRule.GUARDED).change(of("K001/1"), loss(r -> 1.60))))
        .isEqualTo(Standing.OPEN);
    assertThat(
            standing(well().decision(DecisionRule.GUARDED).change(of("K001/1"), loss(r -> 1.80))))
        .isEqualTo(Standing.FAILED);
  }

  @Test
  void oneDirectionIsEnoughWhereOneIsAsked() {
    JobFixture half = well().without(towards(B_TO_A));
    assertThat(standing(half)).isEqualTo(Standing.OPEN);
    assertThat(standing(half.directions(Directions.ONE))).isEqualTo(Standing.PROVED);
    JobFixture either =
        well()
            .directions(Directions.ONE)
            .without(towards(B_TO_A).and(at(1310)))
            .without(towards(A_TO_B).and(at(1550)));
    assertThat(standing(either)).isEqualTo(Standing.PROVED);
    assertThat(first(either.without(of("K001/1").and(at(1550)))).reasons())
        .containsExactly("No reading at 1550 nm");
  }

  @Test
  void eachFibreIsHeldToTheWavelengthsOfItsKind() {
    JobFixture job =
        JobFixture.singleMode()
            .wavelengths(850, 1300, 1310, 1550)
            .link("K001", 1, 150)
            .link("M001", FibreCategory.OM4, 1, 100)
            .zero(ZeroFixture.zero("Z1"))
            .zero(ZeroFixture.multimode("Z2").source("S2").launch("L2").receive("R2"))
            .readAll("Z1", 1310, 1550)
            .readAll("Z2", 850, 1300);
    assertThat(Judge.judge(job.job()).allProved()).isTrue();
    Judgement lacking = Judge.judge(job.without(of("M001/1").and(at(1300))).job());
    assertThat(lacking.fibre(new FibreId("K001", 1)).orElseThrow().standing())
        .isEqualTo(Standing.PROVED);
    assertThat(lacking.fibre(new FibreId("M001", 1)).orElseThrow().standing())
        .isEqualTo(Standing.OPEN);
  }

  @Test
  void aReadingOfAnUnscheduledFibreCountsForNone() {
    Judgement judgement =
        Judge.judge(well().reading(reading("K009", 1, A_TO_B, 1310, 9, "Z1", LATER)).job());
    assertThat(judgement.allProved()).isTrue();
    assertThat(judgement.totals().values().stream().mapToInt(n -> n).sum()).isEqualTo(2);
    assertThat(judgement.fibre(new FibreId("K009", 1))).isEmpty();
    assertThat(judgement.ledger().readings()).hasSize(9);
  }

  @Test
  void anExtraWavelengthWithoutALimitNeitherHoldsUpAFibreNorIsCalledAccepted() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", FibreCategory.OS1, 1, 150)
            .zero(ZeroFixture.zero("Z1").wavelengths(1383, 1310, 1550))
            .reading(reading("K001", 1, A_TO_B, 1383, 0.3, "Z1", MORNING.plusSeconds(60)))
            .readAll("Z1", 1310, 1550);
    FibreJudgement fibre = first(job);
    assertThat(fibre.standing()).isEqualTo(Standing.PROVED);
    assertThat(fibre.readings()).first().extracting(AssessedReading::limitDb).isEqualTo(Double.NaN);
    assertThat(fibre.reasons())
        .containsExactly("4 readings accepted; least margin 1.36 dB at 1310 nm A-B");
  }

  @Test
  void anExtraWavelengthOverItsLimitFails() {
    JobFixture job =
        well()
            .zero(ZeroFixture.zero("Z3").source("S3").wavelengths(1383))
            .reading(reading("K001", 1, A_TO_B, 1383, 2.0, "Z3", LATER));
    assertThat(standing(job)).isEqualTo(Standing.FAILED);
  }

  @Test
  void aLossIsHadFromTheStoredPowerWhereOnlyALevelWasRead() {
    JobFixture job = well().change(of("K001/1"), JobFixture.power(-6.29, Double.NaN));
    FibreJudgement fibre = first(job);
    assertThat(fibre.standing()).isEqualTo(Standing.PROVED);
    assertThat(fibre.readings())
        .allSatisfy(
            r ->
                assertThat(r.lossDb())
                    .isCloseTo(0.29, org.assertj.core.api.Assertions.within(1e-9)));
  }

  @Test
  void aLevelWithoutItsZeroIsNoLoss() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").directions(A_TO_B))
            .readAll("Z1", 1310, 1550)
            .change(towards(B_TO_A), JobFixture.power(-6.29, Double.NaN));
    FibreJudgement fibre = first(job);
    assertThat(fibre.standing()).isEqualTo(Standing.DOUBTFUL);
    assertThat(fibre.readings())
        .filteredOn(r -> r.reading().direction() == B_TO_A)
        .allMatch(r -> !r.hasLoss() && r.decision() == Decision.UNDECIDED);
  }

  @Test
  void anUngradedFaceLeavesItOpen() {
    FibreJudgement fibre = first(well().faces(FaceDemand.ENDS));
    assertThat(fibre.standing()).isEqualTo(Standing.OPEN);
    assertThat(fibre.reasons()).singleElement().asString().contains("end face");
  }

  @Test
  void aLinkTheRulebookCannotJudgeStaysOpenAndSaysSo() {
    FibreJudgement fibre =
        first(
            JobFixture.singleMode()
                .link(
                    JobFixture.aLink(
                        "K001", FibreCategory.OS2, 1, 150, 0, 0, List.of("splitter-1x8")))
                .zero(ZeroFixture.zero("Z1"))
                .readAll("Z1", 1310, 1550));
    assertThat(fibre.standing()).isEqualTo(Standing.OPEN);
    assertThat(fibre.reasons())
        .contains("1310 nm A-B: no limit, the rulebook lacks device splitter-1x8");
  }

  @Test
  void nothingScheduledIsNothingToJudge() {
    Judgement judgement = Judge.judge(JobFixture.singleMode().job());
    assertThat(judgement.fibres()).isEmpty();
    assertThat(judgement.doubts()).isEmpty();
    assertThat(judgement.actions()).isEmpty();
    assertThat(judgement.totals().values()).containsOnly(0);
  }
}
