package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.array.ArrayFixture;
import ferrule.core.array.ArrayPart;
import ferrule.core.array.Keys;
import ferrule.core.array.MapType;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.array.PartEnd.Key;
import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import ferrule.core.array.PartKind;
import ferrule.core.array.PositionMap;
import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.plant.FibreId;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What follows for fibres when maps, ends or parts are wrong. */
class ArrayDoubtsTest {

  private static JobFixture job() {
    return JobFixture.singleMode()
        .link("K", 12, 80)
        .link("L", 12, 80)
        .zero(ZeroFixture.zero("Z1"))
        .readAll("Z1", 1310, 1550);
  }

  private static List<ArrayPart> channel() {
    return ArrayFixture.channel("K", MapType.STRAIGHT, MapType.REVERSED, Keys.ALIGNED);
  }

  private static List<Doubt> ofArrays(Judgement judgement) {
    return judgement.doubts().stream()
        .filter(
            d ->
                d.kind() == DoubtKind.POLARITY
                    || d.kind() == DoubtKind.ARRAY_MATING
                    || d.kind() == DoubtKind.TRANSMIT_RECEIVE
                    || d.kind() == DoubtKind.PAPER_CONFLICT)
        .toList();
  }

  @Test
  void aLinkMeasuredAsComputedRingsNothing() {
    List<ArrayPart> parts = channel();
    Judgement judgement =
        Judge.judge(job().parts(parts).positions(ArrayFixture.measured(parts, 0)).job());
    assertThat(ofArrays(judgement)).isEmpty();
    assertThat(judgement.allProved()).isTrue();
  }

  @Test
  void positionsThatCameOutElsewhereHoldTheirOwnReadingsBackAndNoOthers() {
    List<ArrayPart> parts = channel();
    List<MeasuredPosition> measured = new ArrayList<>(ArrayFixture.measured(parts, 0));
    measured.set(4, new MeasuredPosition("K", 5, measured.get(5).arrivesAt(), 0));
    measured.set(
        5, new MeasuredPosition("K", 6, ArrayFixture.measured(parts, 0).get(4).arrivesAt(), 0));
    Judgement judgement = Judge.judge(job().parts(parts).positions(measured).job());
    assertThat(ofArrays(judgement)).hasSize(1);
    Doubt doubt = ofArrays(judgement).get(0);
    assertThat(doubt.kind()).isEqualTo(DoubtKind.POLARITY);
    assertThat(doubt.subject().id()).isEqualTo("K");
    assertThat(doubt.reach().fibres()).containsExactly(new FibreId("K", 5), new FibreId("K", 6));
    assertThat(doubt.reach().readings()).hasSize(8);
    assertThat(judgement.totals()).containsEntry(Standing.DOUBTFUL, 2);
    assertThat(judgement.totals()).containsEntry(Standing.PROVED, 22);
    assertThat(doubt.causes()).hasSize(3);
  }

  @Test
  void aDarkPositionIsHeldBackToo() {
    List<ArrayPart> parts = channel();
    Judgement judgement =
        Judge.judge(
            job().parts(parts).positions(List.of(new MeasuredPosition("K", 7, 0, 0))).job());
    assertThat(judgement.totals()).containsEntry(Standing.DOUBTFUL, 1);
  }

  @Test
  void twoPinnedEndsAreToldAndHoldNothingBack() {
    PositionMap map = PositionMap.reversed(12);
    var pinned = ArrayFixture.plug(Key.UP, Pins.PINNED, Polish.FLAT);
    Judgement judgement =
        Judge.judge(
            job()
                .parts(
                    List.of(
                        new ArrayPart("K", 1, "T1", PartKind.TRUNK, map, pinned, pinned),
                        new ArrayPart("K", 2, "T2", PartKind.CORD, map, pinned, pinned)))
                .job());
    assertThat(ofArrays(judgement)).hasSize(1);
    assertThat(ofArrays(judgement).get(0).kind()).isEqualTo(DoubtKind.ARRAY_MATING);
    assertThat(judgement.allProved()).isTrue();
  }

  @Test
  void partsThatNoCordsPutRightAreTold() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    parts.set(2, ArrayFixture.cassette("K", 4, "C2", MapType.UNIVERSAL, false));
    Judgement judgement = Judge.judge(job().parts(parts).job());
    assertThat(ofArrays(judgement)).hasSize(1);
    assertThat(ofArrays(judgement).get(0).kind()).isEqualTo(DoubtKind.TRANSMIT_RECEIVE);
    assertThat(judgement.allProved()).isTrue();
  }

  @Test
  void aLinkOfMoreFibresThanPositionsIsAPaperConflict() {
    Judgement judgement =
        Judge.judge(
            JobFixture.singleMode()
                .link("K", 24, 80)
                .zero(ZeroFixture.zero("Z1"))
                .readAll("Z1", 1310, 1550)
                .parts(channel())
                .job());
    assertThat(ofArrays(judgement).get(0).kind()).isEqualTo(DoubtKind.PAPER_CONFLICT);
  }
}
