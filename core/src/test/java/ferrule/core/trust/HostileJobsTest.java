package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.at;
import static ferrule.core.fixture.JobFixture.length;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.time;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.uncertainty.DecisionRule;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class HostileJobsTest {

  private static JobFixture well() {
    return JobFixture.singleMode()
        .link("K001", 2, 150)
        .link("M001", FibreCategory.OM4, 2, 100)
        .wavelengths(850, 1300, 1310, 1550)
        .zero(ZeroFixture.zero("Z1"))
        .zero(ZeroFixture.multimode("Z2").source("S2").launch("L2").receive("R2"))
        .readAll("Z1", 1310, 1550)
        .readAll("Z2", 850, 1300);
  }

  private static Judgement judged(JobFixture job) {
    Judgement judgement = Judge.judge(job.job());
    assertThat(judgement.totals().values().stream().mapToInt(n -> n).sum())
        .isEqualTo(job.job().fibreCount());
    for (Doubt doubt : judgement.doubts()) {
      assertThat(doubt.evidence())
          .filteredOn(e -> e instanceof Evidence.Measure)
          .allSatisfy(e -> assertThat(((Evidence.Measure) e).value()).as(e.name()).isFinite());
    }
    assertThat(Rendering.of(judgement)).isEqualTo(Rendering.of(Judge.judge(job.job())));
    return judgement;
  }

  @Test
  void theLargestLinkIsJudgedWhole() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", Link.MOST_FIBRES, 150)
            .zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", MORNING, l -> true, 1310, 1550)
            .change(r -> true, time(MORNING.plusSeconds(60)));
    Judgement judgement = Judge.judge(job.job());
    assertThat(judgement.allProved()).isTrue();
    assertThat(judgement.fibres()).hasSize(6912);
    assertThat(judgement.fibre(new FibreId("K001", 6912))).isPresent();
    assertThat(judgement.fibre(new FibreId("K001", 6913))).isEmpty();
    Judgement empty =
        Judge.judge(
            JobFixture.singleMode()
                .faces(FaceDemand.ENDS)
                .link("K001", Link.MOST_FIBRES, 150)
                .job());
    assertThat(empty.totals()).containsEntry(Standing.OPEN, 6912);
    assertThat(empty.actions()).hasSize(2);
    assertThat(empty.actions().get(1).frees()).hasSize(6912);
  }

  @ParameterizedTest
  @ValueSource(
      doubles = {
        1e300,
        -1e300,
        1e155,
        -1e155,
        1e12,
        -1e12,
        200,
        -200,
        1e-300,
        -1e-300,
        Double.MIN_VALUE,
        -0.0,
        0
      })
  void extremeLossesAreDecidedOrLeftOpenAndNeverCrash(double extreme) {
    for (DecisionRule rule : DecisionRule.values()) {
      Judgement judgement =
          judged(well().decision(rule).change(of("K001/1").or(of("M001/1")), loss(r -> extreme)));
      Standing standing = judgement.fibres().get(0).standing();
      if (extreme >= 200) {
        assertThat(standing).isEqualTo(Standing.FAILED);
      }
      if (extreme <= -200) {
        assertThat(standing).isEqualTo(Standing.DOUBTFUL);
      }
      assertThat(judgement.fibre(new FibreId("K001", 2)).orElseThrow().standing())
          .isEqualTo(Standing.PROVED);
    }
  }

  @Test
  void anExtremeLossInOneDirectionAloneIsNoCrashEither() {
    judged(well().change(towards(A_TO_B), loss(r -> 1e300)));
    judged(well().change(towards(A_TO_B).and(at(1310)), loss(r -> -1e300)));
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void endlessNumbersAreRefusedWhereAReadingIsMade(double endless) {
    var reading = reading("K001", 1, A_TO_B, 1310, 0.3, "Z1", MORNING);
    assertThatThrownBy(() -> loss(r -> endless).apply(reading))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> JobFixture.power(endless, 0.3).apply(reading))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> length(endless).apply(reading))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, 0, -1, 1e300, -1e300, 1e-300})
  void lengthsOfAnyKindLeaveTheLossesAlone(double metres) {
    Judgement judgement = judged(well().change(of("K001/1"), length(metres)));
    assertThat(judgement.allProved()).isTrue();
    assertThat(judgement.doubts()).hasSize(Double.isNaN(metres) ? 0 : 1);
  }

  @Test
  void aLengthOnOneOfTwoAttemptsIsNoContradiction() {
    Judgement judgement =
        judged(
            well()
                .change(of("K001/1"), length(150))
                .reading(
                    reading(
                        "K001", 1, A_TO_B, 1310, 0.3, "Z1", MORNING.plus(Duration.ofHours(1)))));
    assertThat(judgement.allProved()).isTrue();
  }

  @Test
  void aLinkScheduledTwiceIsRefusedByName() {
    JobFixture job = well().link("K001", 4, 20);
    assertThatThrownBy(() -> Judge.judge(job.job()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("K001");
  }

  @ParameterizedTest
  @ValueSource(ints = {0, -1, Integer.MIN_VALUE, Integer.MAX_VALUE})
  void fibreNumbersThatNoLinkHasAreUnscheduled(int fibre) {
    Judgement judgement =
        judged(well().reading(reading("M001", fibre, A_TO_B, 850, 9, "Z2", MORNING)));
    assertThat(judgement.allProved()).isTrue();
    assertThat(judgement.doubts())
        .singleElement()
        .extracting(Doubt::kind)
        .isEqualTo(DoubtKind.UNSCHEDULED);
  }

  @ParameterizedTest
  @EnumSource(End.class)
  void timesAtTheEndsOfTimeAreJudged(End end) {
    Judgement judgement = judged(well().change(of("K001/1"), time(end.at)));
    assertThat(judgement.fibres().get(0).standing()).isEqualTo(Standing.DOUBTFUL);
    judged(well().change(of("K001/1").and(at(1310)), time(end.at)));
    judged(
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").at(end.at))
            .readAll("Z1", 1310, 1550));
    judged(
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").at(end.at))
            .readAll("Z1", 1310, 1550)
            .change(r -> true, time(end.at)));
  }

  /** The ends of time. */
  enum End {
    FIRST(Instant.MIN),
    LAST(Instant.MAX);

    final Instant at;

    End(Instant at) {
      this.at = at;
    }
  }

  @Test
  void aCalibrationDueAtTheEndOfTimeHasNotLapsed() {
    for (LocalDate due : new LocalDate[] {LocalDate.MAX, LocalDate.parse("9999-12-31")}) {
      Judgement judgement = judged(well().instrument(due("S1", due)));
      assertThat(judgement.allProved()).isTrue();
    }
    assertThat(judged(well().instrument(due("S1", LocalDate.MIN))).doubts())
        .extracting(Doubt::kind)
        .containsExactly(DoubtKind.CALIBRATION_LAPSED);
  }

  private static Instrument due(String id, LocalDate day) {
    return new Instrument(
        id, Instrument.Kind.SOURCE, new TreeSet<>(), Optional.empty(), Optional.of(day));
  }

  @Test
  void oneFibreReadAThousandTimesHasOneReadingThatCounts() {
    JobFixture job = well();
    for (int i = 0; i < 1000; i++) {
      job.reading(reading("K001", 1, A_TO_B, 1310, 0.3, "Z1", MORNING.plusSeconds(2000 + i)));
    }
    Judgement judgement = judged(job);
    assertThat(judgement.fibres().get(0).readings())
        .filteredOn(AssessedReading::current)
        .hasSize(4);
    assertThat(judgement.doubts()).extracting(Doubt::kind).containsExactly(DoubtKind.DOUBLE);
  }

  @Test
  void namesThatLookLikeOthersStayApart() {
    Judgement judgement =
        judged(
            JobFixture.singleMode()
                .link("K001/1", 1, 150)
                .link("K001", 1, 150)
                .link("k001", 1, 150)
                .zero(ZeroFixture.zero("Z1"))
                .readAll("Z1", 1310, 1550)
                .change(r -> r.link().equals("k001"), loss(r -> 3)));
    assertThat(judgement.fibres())
        .extracting(FibreJudgement::standing)
        .containsExactly(Standing.PROVED, Standing.PROVED, Standing.FAILED);
  }
}
