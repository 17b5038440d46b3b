package ferrule.core.array;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.array.PartEnd.Key;
import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import ferrule.core.array.TransmitReceive.Result;
import ferrule.core.checks.CheckFile;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Maps, joints, methods and transmit to receive; published values with their sources in tables. */
class ArrayLinkTest {

  @Test
  void theMapsOfTypesABAndCAreThePublishedOnes() {
    var rows = CheckFile.table("/checks/polarity-maps.csv");
    assertThat(rows).hasSize(3);
    for (var row : rows) {
      MapType type = MapType.ofWord(row.getField("type")).orElseThrow();
      PositionMap map = type.map(Integer.parseInt(row.getField("positions")));
      assertThat(map).hasToString(row.getField("map"));
      assertThat(MapType.of(map)).isEqualTo(type);
    }
  }

  @Test
  void theMethodsExchangeTransmitAndReceiveWherePublished() {
    for (var row : CheckFile.table("/checks/polarity-methods.csv")) {
      Keys keys = row.getField("joints").equals("opposed") ? Keys.OPPOSED : Keys.ALIGNED;
      MapType type = MapType.ofWord(row.getField("trunk")).orElseThrow();
      List<ArrayPart> parts = ArrayFixture.channel("K", MapType.STRAIGHT, type, keys);
      ArrayLink bare = new ArrayLink("K", parts);
      assertThat(bare.method()).isEqualTo(row.getField("method"));
      if (!row.getField("cords_a").isEmpty()) {
        parts.add(ArrayFixture.cords("K", 1, row.getField("cords_a")));
        parts.add(ArrayFixture.cords("K", 5, row.getField("cords_b")));
      }
      ArrayLink link = new ArrayLink("K", parts);
      assertThat(TransmitReceive.of(link).result().word())
          .as(row.toString())
          .isEqualTo(row.getField("result"));
      if (row.getField("cords_a").equals(row.getField("cords_b"))) {
        String ends = link.map().orElseThrow().toString();
        assertThat(ends).startsWith(row.getField("end"));
      }
    }
  }

  @Test
  void theTwelveColoursAreThePublishedOnesAndBeginAgainWithStripes() {
    for (var row : CheckFile.table("/checks/fibre-colours.csv")) {
      int number = Integer.parseInt(row.getField("number"));
      assertThat(FibreColour.of(number)).isEqualTo(row.getField("fibre"));
      assertThat(FibreColour.inTube(number)).isEqualTo(row.getField("in_tubes"));
    }
    assertThat(FibreColour.twelve()).hasSize(12).doesNotHaveDuplicates();
  }

  @ParameterizedTest
  @CsvSource({"OPPOSED,U1", "ALIGNED,U2"})
  void universalBoxesMeetWithLikeCordsWhicheverWayTheKeysStand(Keys keys, String method) {
    // Names and map of these methods are from memory; what is checked is what the map must do.
    ArrayLink link =
        new ArrayLink("K", ArrayFixture.channel("K", MapType.UNIVERSAL, MapType.REVERSED, keys));
    assertThat(link.method()).isEqualTo(method);
    assertThat(TransmitReceive.of(link).result()).isEqualTo(Result.MEETS);
  }

  @Test
  void plugsFaceEachOtherAsTheirGeometrySays() {
    // Each position as a point, seen along the axis of the first plug: x to the right, y up.
    for (int positions : new int[] {8, 12, 16, 24, 32}) {
      int rows = positions > Keys.MOST_IN_A_ROW ? 2 : 1;
      int columns = positions / rows;
      for (Keys keys : Keys.values()) {
        PositionMap map = keys.map(positions);
        for (int i = 0; i < positions; i++) {
          double x = i % columns - (columns - 1) / 2.0;
          double y = (rows - 1) / 2.0 - i / columns;
          int j = map.at(i + 1) - 1;
          // The second plug looks the other way: its left is the first one's right.
          double turn = keys == Keys.OPPOSED ? -1 : 1;
          double otherX = -turn * (j % columns - (columns - 1) / 2.0);
          double otherY = turn * ((rows - 1) / 2.0 - j / columns);
          assertThat(otherX).isEqualTo(x);
          assertThat(otherY + 0.0).isEqualTo(y + 0.0);
        }
      }
    }
  }

  @Test
  void whatIsNoPermutationIsRefusedWithThePositionThatIsWrong() {
    assertThat(PositionMap.fault(1, 2, 2)).isEqualTo("positions 2 and 3 both lead to 2");
    assertThat(PositionMap.fault(1, 4, 2)).isEqualTo("position 2 leads to 4, beyond 3");
    assertThat(PositionMap.fault(1, 0, 2)).isEqualTo("position 2 leads nowhere");
    assertThatThrownBy(() -> PositionMap.of(1, 1)).isInstanceOf(IllegalArgumentException.class);
  }

  private static List<String> misfits(PartEnd one, PartEnd other) {
    PositionMap map = PositionMap.straight(12);
    ArrayPart before =
        new ArrayPart("K", 1, "T1", PartKind.TRUNK, map, ArrayFixture.plug(Key.UP), one);
    ArrayPart after =
        new ArrayPart("K", 2, "T2", PartKind.CORD, map, other, ArrayFixture.plug(Key.UP));
    return new Joint(before, after).misfits();
  }

  @Test
  void endsThatCannotBeMatedAreToldAndOthersAreNot() {
    PartEnd good = ArrayFixture.plug(Key.UP, Pins.PINNED, Polish.ANGLED);
    assertThat(misfits(good, ArrayFixture.plug(Key.DOWN, Pins.UNPINNED, Polish.ANGLED))).isEmpty();
    assertThat(misfits(good, ArrayFixture.plug(Key.UP))).isEmpty();
    assertThat(misfits(good, ArrayFixture.plug(Key.DOWN, Pins.PINNED, Polish.ANGLED)))
        .singleElement()
        .asString()
        .contains("two pinned ends");
    assertThat(misfits(good, ArrayFixture.plug(Key.DOWN, Pins.UNPINNED, Polish.FLAT)))
        .singleElement()
        .asString()
        .contains("angled face meets a flat one");
    // Two usual angled faces lie flat on each other only with keys opposed.
    assertThat(misfits(good, ArrayFixture.plug(Key.UP, Pins.UNPINNED, Polish.ANGLED)))
        .singleElement()
        .asString()
        .contains("lean against each other");
    assertThat(misfits(good, ArrayFixture.plug(Key.UP, Pins.UNPINNED, Polish.ANGLED_REVERSED)))
        .isEmpty();
    PartEnd unpinned = ArrayFixture.plug(Key.UP, Pins.UNPINNED, Polish.FLAT);
    assertThat(misfits(unpinned, unpinned))
        .singleElement()
        .asString()
        .contains("two unpinned ends");
  }

  @Test
  void aMapThatHangsOnAnUnknownKeyIsSaidToBeUnknown() {
    PartEnd nothing =
        new PartEnd(
            true,
            java.util.Optional.empty(),
            java.util.Optional.empty(),
            java.util.Optional.empty());
    List<ArrayPart> parts =
        new ArrayList<>(
            ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED));
    parts.set(
        1, new ArrayPart("K", 3, "T", PartKind.TRUNK, PositionMap.straight(12), nothing, nothing));
    ArrayLink link = new ArrayLink("K", parts);
    assertThat(link.map()).isEmpty();
    assertThat(link.method()).isEmpty();
    assertThat(link.unknown()).contains("how the keys stand at the joint of cassette K-C1");
    assertThat(TransmitReceive.of(link).result()).isEqualTo(Result.UNKNOWN);
  }

  @ParameterizedTest
  @CsvSource({"A,needs-one-exchange", "B,meets", "C,needs-one-exchange"})
  void betweenArraysTransmittingPositionsMustArriveAtReceivingOnes(String type, String result) {
    // Positions 1 to 4 transmit, 9 to 12 receive: from memory.
    ArrayPart trunk =
        ArrayFixture.trunk("K", 1, "T", MapType.ofWord(type).orElseThrow().map(12), Keys.OPPOSED);
    assertThat(TransmitReceive.of(new ArrayLink("K", List.of(trunk))).result().word())
        .isEqualTo(result);
  }
}
