package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.trust.PanelJobs.Wrong;
import ferrule.core.trust.joint.JointEstimate.Confounded;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ConfoundingTest {

  private static final String JOB = "the glass and the connections of the job";

  private static Confounded of(Judgement judgement, String zero) {
    return Optional.ofNullable(judgement.estimate().confounded().get(zero)).orElseThrow();
  }

  @Test
  void aSingleZeroCannotBeToldFromTheJobItself() {
    Judgement judgement = new PanelJobs(1, 1, false, Wrong.NOTHING, 0).judged();
    Map<String, Confounded> confounded = judgement.estimate().confounded();
    assertThat(confounded).containsOnlyKeys("Z1");
    assertThat(of(judgement, "Z1").with()).contains(JOB);
    Separation separation = of(judgement, "Z1").separations().get(0);
    assertThat(separation.first()).isEqualTo("a shift of zero Z1");
    assertThat(separation.second()).isEqualTo(JOB);
    assertThat(separation.readings())
        .isNotEmpty()
        .allSatisfy(r -> assertThat(r.reference()).isEmpty())
        .allSatisfy(r -> assertThat(r.secondDb() - r.firstDb()).isBetween(0.03, 0.09));
  }

  @Test
  void aZeroOfOnePanelOnlyCannotBeToldFromThatPanel() {
    Judgement judgement = new PanelJobs(1, 4, false, Wrong.NOTHING, 0).judged();
    Map<String, Confounded> confounded = judgement.estimate().confounded();
    assertThat(confounded).containsOnlyKeys("Z1", "Z2", "Z3", "Z4");
    for (int z = 1; z <= 4; z++) {
      assertThat(of(judgement, "Z" + z).with()).containsExactly("panel Rack " + z);
    }
  }

  @Test
  void zerosThatServeAllPanelsAreToldFromEverything() {
    for (int racks = 2; racks <= 4; racks++) {
      Judgement judgement = new PanelJobs(1, racks, true, Wrong.NOTHING, 0).judged();
      assertThat(judgement.estimate().confounded()).isEmpty();
    }
  }

  @Test
  void aZeroWithADoubtIsConfoundedWithWhatTheDoubtNames() {
    Judgement judgement = new PanelJobs(1, 4, false, Wrong.ZERO, 0.2).judged();
    Confounded confounded = of(judgement, "Z2");
    assertThat(confounded.with()).contains("panel Rack 2");
    assertThat(confounded.separations()).isNotEmpty();
  }

  @Test
  void theShiftOfACordIsThatOfItsZeros() {
    Judgement judgement = new PanelJobs(1, 4, true, Wrong.ZERO, 0.2).judged();
    List<CordShift> cords = judgement.estimate().cords();
    assertThat(cords).extracting(CordShift::cord).contains("L1", "R1", "L2", "R2", "L3", "L4");
    for (CordShift cord : cords) {
      boolean off = cord.zeros().equals(List.of("Z2"));
      assertThat(cord.shiftDb()).isCloseTo(off ? 0.2 : 0, within(4 * cord.sdDb()));
      assertThat(cord.sdDb()).isBetween(0.005, 0.06);
      String other = (cord.cord().startsWith("L") ? "R" : "L") + cord.cord().substring(1);
      assertThat(cord.confoundedWith()).containsExactly("cord " + other);
      // Twenty duplex links a zero, both directions.
      assertThat(cord.matingsInJob()).isEqualTo(80);
    }
  }

  @Test
  void theFalseAlarmChanceIsTheSumOfTheAlarmLevelsInUse() {
    Alarm alarm = new PanelJobs(1, 4, true, Wrong.NOTHING, 0).judged().alarm();
    // 160 fibres, two wavelengths: so many pairs of directions.
    assertThat(alarm.shares())
        .contains(new AlarmShare(DoubtKind.DIRECTION_GAP, false, 320, 0.005))
        .anySatisfy(s -> assertThat(s.kinds()).containsExactly(DoubtKind.ZERO_SHIFT));
    double joint =
        alarm.shares().stream()
            .filter(s -> s.kinds().get(0).compareTo(DoubtKind.DIRECTION_GAP) != 0)
            .mapToDouble(AlarmShare::chance)
            .sum();
    assertThat(alarm.chance()).isCloseTo(joint + 0.005, within(1e-12));
    assertThat(alarm.blockingChance()).isLessThan(alarm.chance()).isPositive();
    assertThat(alarm.shown())
        .startsWith("By the alarm levels in use, a perfect job of this size (")
        .endsWith("about once in " + Math.round(1 / alarm.chance()));
    assertThat(new Alarm(List.of()).shown()).isEmpty();
  }

  /** Every finder that may hold readings back has its part of one false ring in 200 jobs. */
  @Test
  void whatHoldsReadingsBackIsFalseOnceInTwoHundredPerfectJobsAtMost() {
    for (long seed = 1; seed <= 5; seed++) {
      assertThat(Judge.judge(MessyJobs.job(seed)).alarm().blockingChance())
          .isLessThanOrEqualTo(0.005 + 1e-12);
    }
    PanelJobs job = new PanelJobs(1, 4, true, Wrong.NOTHING, 0).withLengths();
    assertThat(job.judged().alarm().shares())
        .extracting(s -> s.kinds().get(0))
        .contains(DoubtKind.CROSSED, DoubtKind.PORT_SHIFT, DoubtKind.REPEATED_VALUES);
    assertThat(job.judged().alarm().blockingChance()).isCloseTo(0.005, within(1e-12));
  }

  @Test
  void aJobWithNothingToLookAtStatesNoChance() {
    Judgement judgement = Judge.judge(JobFixture.singleMode().job());
    assertThat(judgement.alarm().shares()).isEmpty();
    assertThat(judgement.estimate().confounded()).isEmpty();
    assertThat(judgement.estimate().cords()).isEmpty();
  }
}
