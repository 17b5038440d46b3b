package ferrule.core.array;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Faults planted in parts and joints; what the measured maps then say. */
class FaultSearchTest {

  private static PolarityCheck check(List<ArrayPart> written, List<MeasuredPosition> measured) {
    return new JobArrays(written, measured).check("K").orElseThrow();
  }

  private static PositionMap exchanged(PositionMap map, int one, int other) {
    int[] to = map.arrivals().stream().mapToInt(Integer::intValue).toArray();
    int kept = to[one - 1];
    to[one - 1] = to[other - 1];
    to[other - 1] = kept;
    return PositionMap.of(to);
  }

  private static ArrayPart with(ArrayPart part, PositionMap map) {
    return new ArrayPart(
        part.link(), part.order(), part.part(), part.kind(), map, part.a(), part.b());
  }

  @Test
  void aMapAsComputedIsFoundToAgreeWhateverTheParts() {
    for (MapType box : List.of(MapType.STRAIGHT, MapType.UNIVERSAL)) {
      for (MapType type : List.of(MapType.STRAIGHT, MapType.REVERSED, MapType.PAIR_FLIPPED)) {
        for (Keys keys : Keys.values()) {
          List<ArrayPart> parts = ArrayFixture.channel("K", box, type, keys);
          assertThat(check(parts, ArrayFixture.measured(parts, 0)).agrees()).isTrue();
        }
      }
    }
  }

  @Test
  void twoExchangedPositionsCannotBeLaidToOnePartByTheWholeMapAlone() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.PAIR_FLIPPED, Keys.OPPOSED);
    List<ArrayPart> built = new ArrayList<>(parts);
    built.set(1, with(parts.get(1), exchanged(parts.get(1).written(), 5, 9)));
    PolarityCheck check = check(parts, ArrayFixture.measured(built, 0));
    assertThat(check.astray()).containsExactly(5, 9);
    assertThat(check.told()).isFalse();
    assertThat(check.suspects()).hasSize(3).allMatch(s -> s.contains("exchanged"));
    assertThat(check.check()).contains("behind");
  }

  @Test
  void mapsReadBehindEachPartTellThePart() {
    for (int fault = 0; fault < 3; fault++) {
      List<ArrayPart> parts =
          ArrayFixture.channel("K", MapType.STRAIGHT, MapType.REVERSED, Keys.ALIGNED);
      List<ArrayPart> built = new ArrayList<>(parts);
      ArrayPart wrong = parts.get(fault);
      built.set(fault, with(wrong, exchanged(wrong.written(), 2, 11)));
      List<MeasuredPosition> measured = new ArrayList<>(ArrayFixture.measured(built, 0));
      measured.addAll(ArrayFixture.measured(built, 2));
      measured.addAll(ArrayFixture.measured(built, 3));
      PolarityCheck check = check(parts, measured);
      assertThat(check.told()).isTrue();
      assertThat(check.suspects().get(0)).startsWith(wrong.named());
    }
  }

  @Test
  void aTrunkOfAnotherTypeIsAmongFewSuspectsAndEachOfThemIsOneLook() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    List<ArrayPart> built = new ArrayList<>(parts);
    built.set(1, with(parts.get(1), PositionMap.reversed(12)));
    PolarityCheck check = check(parts, ArrayFixture.measured(built, 0));
    assertThat(check.suspects())
        .contains("trunk K-T is type B (reversed), not type A (straight)")
        .anyMatch(s -> s.startsWith("the joint of cassette K-C1 and trunk K-T has its keys"));
    assertThat(check.check()).startsWith("Look at ");
  }

  @Test
  void anotherLinkThroughTheSameTrunkClearsIt() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    List<ArrayPart> built = new ArrayList<>(parts);
    built.set(1, with(parts.get(1), PositionMap.reversed(12)));
    List<ArrayPart> both = new ArrayList<>(parts);
    List<ArrayPart> sister = new ArrayList<>();
    for (ArrayPart p :
        ArrayFixture.channel("L", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED)) {
      String name = p.kind() == PartKind.TRUNK ? "K-T" : p.part();
      sister.add(new ArrayPart("L", p.order(), name, p.kind(), p.written(), p.a(), p.b()));
    }
    both.addAll(sister);
    List<MeasuredPosition> measured = new ArrayList<>(ArrayFixture.measured(built, 0));
    assertThat(check(both, measured).suspects()).anyMatch(s -> s.startsWith("trunk K-T"));
    measured.addAll(ArrayFixture.measured(sister, 0));
    assertThat(check(both, measured).suspects())
        .isNotEmpty()
        .noneMatch(s -> s.startsWith("trunk K-T"));
  }

  @Test
  void aMapThatNoFibresMakeIsReadAgainAndNothingIsSuspected() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    PolarityCheck check =
        check(
            parts, List.of(new MeasuredPosition("K", 1, 5, 0), new MeasuredPosition("K", 2, 5, 0)));
    assertThat(check.contradiction()).isEqualTo("positions 1 and 2 both came out at 5");
    assertThat(check.suspects()).isEmpty();
    assertThat(check.check()).startsWith("Read the map again");
  }

  @Test
  void aDarkPositionIsAstrayAndIsLookedForBehindEachPart() {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    PolarityCheck check = check(parts, List.of(new MeasuredPosition("K", 7, 0, 0)));
    assertThat(check.astray()).containsExactly(7);
    assertThat(check.arrivals().get(0)).isEqualTo("7 (red) came out nowhere, not at 7");
    assertThat(check.check()).contains("7 (red)");
  }

  /** Many links of random parts with one random fault: the fault is always among the suspects. */
  @Test
  void thePlantedPartIsAlwaysAmongTheSuspectsAndReadingBehindItClosesIn() {
    SplittableRandom random = new SplittableRandom(598);
    int told = 0;
    for (int run = 0; run < 400; run++) {
      List<ArrayPart> parts = new ArrayList<>();
      parts.add(ArrayFixture.cassette("K", 2, "C1", box(random), true));
      int trunks = 1 + random.nextInt(3);
      for (int i = 0; i < trunks; i++) {
        Keys keys = random.nextBoolean() ? Keys.ALIGNED : Keys.OPPOSED;
        MapType type = List.of(MapType.values()).get(random.nextInt(3));
        parts.add(ArrayFixture.trunk("K", 3 + i, "T" + i, type.map(12), keys));
      }
      parts.add(ArrayFixture.cassette("K", 9, "C2", box(random), false));
      int wrong = random.nextInt(parts.size());
      ArrayPart part = parts.get(wrong);
      int one = 1 + random.nextInt(12);
      int other = 1 + (one + random.nextInt(10)) % 12;
      PositionMap map =
          random.nextBoolean()
              ? exchanged(part.written(), one, other)
              : MapType.of(part.written()) == MapType.REVERSED
                  ? PositionMap.straight(12)
                  : PositionMap.reversed(12);
      List<ArrayPart> built = new ArrayList<>(parts);
      built.set(wrong, with(part, map));
      List<MeasuredPosition> measured = new ArrayList<>(ArrayFixture.measured(built, 0));
      PolarityCheck whole = check(parts, measured);
      assertThat(whole.agrees()).isFalse();
      assertThat(whole.suspects()).as("run " + run).anyMatch(s -> s.startsWith(part.named()));
      for (ArrayPart p : parts.subList(0, parts.size() - 1)) {
        measured.addAll(ArrayFixture.measured(built, p.order()));
      }
      PolarityCheck closer = check(parts, measured);
      assertThat(closer.suspects()).as("run " + run).anyMatch(s -> s.startsWith(part.named()));
      assertThat(closer.suspects().size()).isLessThanOrEqualTo(2);
      told += closer.told() ? 1 : 0;
    }
    assertThat(told).isGreaterThan(200);
  }

  private static MapType box(SplittableRandom random) {
    return random.nextBoolean() ? MapType.STRAIGHT : MapType.UNIVERSAL;
  }
}
