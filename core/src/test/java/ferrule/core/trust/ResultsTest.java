package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.Decibels;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What the result of a deed tells: in doubts, in actions, and along the walk. */
class ResultsTest {

  static List<DoubtCase> cases() {
    return DoubtCases.all();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void everyNextStepSaysWhatConfirmsAndWhatRefutesTheLikeliestCause(DoubtCase one) {
    Judgement judgement = Judge.judge(one.job());
    for (Doubt doubt : judgement.doubts()) {
      assertSentence(doubt.next().confirms());
      assertSentence(doubt.next().refutes());
      assertThat(doubt.next().confirms()).isNotEqualTo(doubt.next().refutes());
    }
    for (Action action : judgement.actions()) {
      assertSentence(action.confirms());
      assertSentence(action.refutes());
    }
  }

  @Test
  void doubtsFromManyReadingsSayItToo() {
    Set<DoubtKind> seen = EnumSet.noneOf(DoubtKind.class);
    for (long seed = 1; seed <= 150; seed++) {
      for (Doubt doubt : Judge.judge(MessyJobs.job(seed)).doubts()) {
        seen.add(doubt.kind());
        assertSentence(doubt.next().confirms());
        assertSentence(doubt.next().refutes());
      }
    }
    assertThat(seen).contains(DoubtKind.ZERO_SHIFT, DoubtKind.LEVEL_STEP, DoubtKind.LEVEL_DRIFT);
  }

  private static void assertSentence(String text) {
    assertThat(text)
        .isNotBlank()
        .matches("[A-Z].*[^.]")
        .doesNotContain("NaN")
        .doesNotContain("null")
        .doesNotContain("--")
        .doesNotContain("-0.00")
        .hasSizeLessThan(220);
  }

  @Test
  void aZeroThatSeemsLowIsConfirmedOrRefutedByHalfOfWhatItIsOff() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").verification(0.06))
            .readAll("Z1", 1310, 1550);
    List<AssessedReading> reach = Judge.judge(job.job()).ledger().readings();
    NextStep step = Steps.verify("Z1", reach, -0.18);
    assertThat(step.confirms())
        .isEqualTo(
            "The cords read about 0.18 dB below their first verification (0.06 dB at 1310 nm A-B),"
                + " 0.09 at least: the zero is off");
    assertThat(step.refutes())
        .isEqualTo(
            "They read within 0.09 dB of it: the zero holds; look at the panels that it was used"
                + " on");
    assertThat(Steps.verify("Z1", reach, 0.3).confirms())
        .contains("0.30 dB above", "0.15 at least");
    assertThat(Steps.verify("Z1", List.of(), -0.18).confirms())
        .isEqualTo("The cords read below their window: the zero is off");
  }

  @Test
  void theTextsOfADeedThatSeveralDoubtsShareAreThoseOfTheFarthestReach() {
    // The whole zero is unverified; one fibre under it lies below the glass by a known amount.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 2, 150)
            .zero(ZeroFixture.zero("Z1").unverified())
            .readAll("Z1", 1310, 1550)
            .change(of("K001/1"), loss(r -> -0.3));
    assertThat(Judge.judge(job.job()).actions())
        .singleElement()
        .satisfies(a -> assertThat(a.confirms()).startsWith("None was made"));
  }

  @Test
  void aFailedFibreIsSettledByItsLimit() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", 1310, 1550)
            .change(of("K001/1"), loss(r -> 1.8));
    Judgement judgement = Judge.judge(job.job());
    String limit = Decibels.shown(judgement.fibres().get(0).readings().get(0).limitDb());
    assertThat(judgement.actions())
        .singleElement()
        .satisfies(a -> assertThat(a.confirms()).startsWith("It reads " + limit + " dB or less"));
  }

  @Test
  void theWalkAddsUpToTheActionsAndCountsSettingUpOnceAStop() {
    for (long seed = 1; seed <= 12; seed++) {
      Judgement judgement = Judge.judge(MessyJobs.job(seed));
      List<Action> actions = judgement.actions();
      Walk walk = judgement.walk();
      assertThat(walk.stops().stream().flatMap(s -> s.actions().stream()))
          .containsExactlyElementsOf(actions.stream().map(Action::rank).toList());
      double minutes = 0;
      int freed = 0;
      for (int i = 0; i < walk.stops().size(); i++) {
        Walk.Stop stop = walk.stops().get(i);
        List<Action> own = actions.stream().filter(a -> a.stop() == stop.number()).toList();
        assertThat(stop.number()).isEqualTo(i + 1);
        assertThat(own).extracting(Action::rank).isEqualTo(stop.actions());
        assertThat(own).extracting(Action::place).containsOnly(stop.place());
        assertThat(stop.setUpMinutes()).isEqualTo(stop.place().isEmpty() ? 0 : Handling.SET_UP);
        assertThat(stop.minutes())
            .isEqualTo(stop.setUpMinutes() + own.stream().mapToDouble(Action::minutes).sum());
        assertThat(stop.frees()).isEqualTo(own.stream().mapToInt(a -> a.frees().size()).sum());
        minutes += stop.minutes();
        freed += stop.frees();
        assertThat(stop.minutesByThen()).isEqualTo(minutes);
        assertThat(stop.freedByThen()).isEqualTo(freed);
        assertThat(i == 0 || !walk.stops().get(i - 1).place().equals(stop.place())).isTrue();
      }
      assertThat(walk.minutes()).isEqualTo(minutes);
    }
  }

  @Test
  void whatWaitsAtOnePlaceIsDoneInOneVisit() {
    // Failed fibres at three ports of one room, and papers: two stops, one of them anywhere.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .link("K002", 1, 150)
            .link("K003", 1, 150)
            .zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", 1310, 1550)
            .change(r -> true, loss(r -> 1.8));
    Judgement judgement = Judge.judge(job.job());
    assertThat(judgement.actions()).hasSize(3);
    assertThat(judgement.actions()).extracting(Action::where).doesNotHaveDuplicates();
    assertThat(judgement.walk().stops())
        .singleElement()
        .satisfies(
            stop -> {
              assertThat(stop.place()).isEqualTo("Kiln room");
              assertThat(stop.minutes()).isEqualTo(Handling.SET_UP + 3 * Handling.CLEAN_AND_RETEST);
              assertThat(stop.frees()).isEqualTo(3);
            });
  }

  @Test
  void aZeroIsReadAsItStandsThenSetAnewThenUsed() {
    assertThat(Steps.needs("rezero:Z:1")).contains("verify:Z:1", "step:Z:1");
    assertThat(Steps.needs("retest:Z:1:AFTER")).contains("rezero:Z:1", "verify:Z:1");
    assertThat(Steps.needs("verify:Z:1")).isEmpty();
    assertThat(Steps.needs("clean:K001/1")).isEmpty();
    assertThat(Steps.settledBy("verify:Z:1")).containsExactly("rezero:Z:1", "step:Z:1");
    assertThat(Steps.settledBy("retest:Z:1:AFTER")).containsExactly("rezero:Z:1");
  }

  @Test
  void readingsTakenAfterAZeroLapsedAreRetestedOnceThatZeroIsSetAnew() {
    // Link B fits a zero that must be set anew; link A, cheaper to retest, was read too late.
    JobFixture job =
        JobFixture.singleMode()
            .link("A01", 1, 150)
            .link("B01", 1, 150)
            .zero(ZeroFixture.zero("Z1").verification(0.5))
            .readAll("Z1", MORNING, l -> l.id().equals("B01"), 1310, 1550)
            .readAll("Z1", MORNING.plusSeconds(20 * 3600), l -> l.id().equals("A01"), 1310, 1550);
    assertThat(Judge.judge(job.job()).actions().get(0).what()).contains("set a new zero");
  }
}
