package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.zero.Reading;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class DoubtsTest {

  static List<DoubtCase> cases() {
    return DoubtCases.all();
  }

  private static Set<DoubtKind> kinds(Judgement judgement) {
    return judgement.doubts().stream()
        .map(Doubt::kind)
        .collect(Collectors.toCollection(() -> EnumSet.noneOf(DoubtKind.class)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void itRingsWithItsSubjectAndReachesExactlyWhatItShould(DoubtCase one) {
    Judgement judgement = Judge.judge(one.job());
    List<Doubt> rung = judgement.doubts().stream().filter(d -> d.kind() == one.kind()).toList();
    assertThat(rung).hasSize(one.times());
    List<Doubt> own = rung.stream().filter(d -> d.subject().equals(one.subject())).toList();
    assertThat(own).hasSize(1);
    Doubt doubt = own.get(0);
    assertThat(doubt.blocking()).isEqualTo(one.blocking());
    List<Reading> readings = one.job().readings();
    Set<Integer> expected = new TreeSet<>();
    for (int i = 0; i < readings.size(); i++) {
      if (one.reached().test(readings.get(i))) {
        expected.add(i);
      }
    }
    assertThat(doubt.reach().readings())
        .extracting(AssessedReading::index)
        .as("indices of the readings reached, in the order handed in")
        .containsExactlyElementsOf(expected);
    assertThat(doubt.reach().fibres())
        .extracting(Object::toString)
        .containsExactlyInAnyOrderElementsOf(one.fibres());
    assertThat(doubt.reach().readings()).allMatch(AssessedReading::current);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void nothingElseRingsWithIt(DoubtCase one) {
    Set<DoubtKind> expected = EnumSet.of(one.kind());
    expected.addAll(one.besides());
    assertThat(kinds(Judge.judge(one.job()))).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void itDoesNotRingNextDoor(DoubtCase one) {
    assertThat(kinds(Judge.judge(one.neighbour()))).isEqualTo(one.besidesInNeighbour());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void aBlockingDoubtAndOnlyThatMakesItsFibresDoubtful(DoubtCase one) {
    Judgement judgement = Judge.judge(one.job());
    boolean anyOtherBlocks =
        judgement.doubts().stream().anyMatch(d -> d.kind() != one.kind() && d.blocking());
    for (FibreJudgement fibre : judgement.fibres()) {
      boolean touched = one.fibres().contains(fibre.fibre().toString());
      if (touched && one.blocking()) {
        assertThat(fibre.standing()).isEqualTo(Standing.DOUBTFUL);
      } else if (!anyOtherBlocks) {
        assertThat(fibre.standing()).isNotEqualTo(Standing.DOUBTFUL);
      }
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void itSaysOnWhatItRestsAndWhatToDo(DoubtCase one) {
    for (Doubt doubt : Judge.judge(one.job()).doubts()) {
      assertThat(doubt.evidence()).isNotEmpty();
      assertThat(doubt.evidence())
          .filteredOn(e -> e instanceof Evidence.Measure)
          .allSatisfy(e -> assertThat(((Evidence.Measure) e).value()).isFinite());
      assertThat(doubt.causes()).isNotEmpty();
      assertThat(doubt.causes().stream().mapToDouble(Cause::weight).sum())
          .isCloseTo(1, within(1e-12));
      assertThat(doubt.causes())
          .extracting(Cause::weight)
          .isSortedAccordingTo(java.util.Comparator.reverseOrder());
      assertThat(doubt.next().what()).isNotBlank();
      assertThat(doubt.next().minutes()).isPositive();
      assertThat(doubt.line()).startsWith(doubt.kind().headline());
    }
  }

  @Test
  void everyKindHasACase() {
    assertThat(cases().stream().map(DoubtCase::kind).collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(DoubtKind.class));
  }

  @Test
  void idsOfTheContractStay() {
    assertThat(EnumSet.allOf(DoubtKind.class))
        .extracting(DoubtKind::id)
        .contains(
            "zero-power",
            "zero-unverified",
            "zero-verification",
            "zero-mismatch",
            "zero-lapsed",
            "calibration-lapsed",
            "below-floor",
            "wavelength-order",
            "direction-gap",
            "length-gap",
            "missing",
            "unscheduled",
            "double",
            "face-rejected",
            "face-unseen",
            "paper-conflict");
  }
}
