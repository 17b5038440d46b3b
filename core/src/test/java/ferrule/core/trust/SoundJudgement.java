package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.plant.Link;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import ferrule.core.zero.ZeroLevel;

/** What every judgement owes its reader, whatever was handed in. */
final class SoundJudgement {

  private SoundJudgement() {}

  /** Fails if anything that is shown or counted is no number, or is not there. */
  static void check(Judgement judgement) {
    assertThat(judgement.totals().values().stream().mapToInt(n -> n).sum())
        .isEqualTo(judgement.ledger().job().links().stream().mapToInt(Link::fibres).sum());
    for (FibreJudgement fibre : judgement.fibres()) {
      assertThat(fibre.reasons()).isNotEmpty().allSatisfy(SoundJudgement::words);
      double sum = 0;
      for (Cause cause : judgement.causesOf(fibre.fibre())) {
        words(cause.cause());
        assertThat(cause.weight()).as(cause.cause()).isBetween(0.0, 1.0);
        sum += cause.weight();
      }
      assertThat(sum).isLessThan(1 + 1e-9);
    }
    judgement.doubts().forEach(SoundJudgement::check);
    for (ZeroTrust zero : judgement.zeros()) {
      assertThat(zero.reasons()).allSatisfy(SoundJudgement::words);
      zero.spans().forEach(s -> assertThat(s.from()).isBeforeOrEqualTo(s.to()));
      for (ZeroLevel level : zero.zero().levels()) {
        judgement.estimate().shift(level).ifPresent(SoundJudgement::check);
      }
    }
    for (Action action : judgement.actions()) {
      words(action.what());
      words(action.where());
      words(action.confirms());
      words(action.refutes());
      assertThat(action.minutes()).isFinite().isPositive();
    }
    assertThat(judgement.walk().minutes()).isFinite().isNotNegative();
    judgement.walk().stops().forEach(s -> words(s.toString()));
    for (Proposal proposal : Proposals.of(judgement)) {
      assertThat(proposal.shiftDb()).isFinite();
      assertThat(proposal.shiftSdDb()).isFinite().isPositive();
    }
    words(VerificationInterval.of(judgement).toString());
  }

  private static void check(LevelShift shift) {
    assertThat(shift.shiftDb()).isFinite();
    assertThat(shift.sdDb()).isFinite().isPositive();
  }

  private static void check(Doubt doubt) {
    words(doubt.line());
    words(doubt.next().toString());
    for (Evidence evidence : doubt.evidence()) {
      words(evidence.shown());
      if (evidence instanceof Evidence.Measure measure) {
        assertThat(measure.value()).as("%s of %s", measure.name(), doubt.kind()).isFinite();
      }
    }
    for (Cause cause : doubt.causes()) {
      words(cause.cause());
      assertThat(cause.weight()).as(cause.cause()).isBetween(0.0, 1.0);
    }
  }

  private static void words(String text) {
    assertThat(text).doesNotContain("NaN", "Infinity", "null");
  }
}
