package ferrule.core.trust;

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
import ferrule.core.fixture.TreeFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.zero.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/** Cases of what is built of parts, and of trees. */
final class BuiltCases {

  private BuiltCases() {}

  static void addTo(List<DoubtCase> cases) {
    List<ArrayPart> parts =
        ArrayFixture.channel("K", MapType.STRAIGHT, MapType.STRAIGHT, Keys.OPPOSED);
    List<MeasuredPosition> good = ArrayFixture.measured(parts, 0);
    List<MeasuredPosition> crossed = new ArrayList<>(good);
    crossed.set(0, new MeasuredPosition("K", 1, 2, 0));
    crossed.set(1, new MeasuredPosition("K", 2, 1, 0));
    Predicate<Reading> two = r -> r.fibre() <= 2;
    cases.add(
        DoubtCase.of(
                DoubtKind.POLARITY,
                "two positions came out exchanged",
                four().parts(parts).positions(crossed))
            .onLink("K")
            .blocking()
            .reaching(two, "K/1", "K/2")
            .butNotIn(four().parts(parts).positions(good)));
    cases.add(
        DoubtCase.of(DoubtKind.ARRAY_MATING, "pinned to pinned", four().parts(joined(Pins.PINNED)))
            .onLink("K")
            .touching("K/1", "K/2", "K/3", "K/4")
            .butNotIn(four().parts(joined(Pins.UNPINNED))));
    List<ArrayPart> mixed = new ArrayList<>(parts);
    mixed.set(2, ArrayFixture.cassette("K", 4, "C2", MapType.UNIVERSAL, false));
    cases.add(
        DoubtCase.of(DoubtKind.TRANSMIT_RECEIVE, "pairs are torn apart", four().parts(mixed))
            .onLink("K")
            .touching("K/1", "K/2", "K/3", "K/4")
            .butNotIn(four().parts(parts)));
    cases.add(
        DoubtCase.of(
                DoubtKind.SPLITTER_STEP,
                "a leg loses one halving too little",
                TreeFixture.job(3, id -> id.equals("B3") ? -3.3 : 0))
            .onLink("B3")
            .blocking()
            .reaching(r -> r.link().equals("B3"), "B3/1")
            .butNotIn(TreeFixture.job(3, id -> 0)));
    cases.add(
        DoubtCase.of(
                DoubtKind.SPLITTER_HIGH,
                "the six legs of one splitter are high",
                TreeFixture.job(3, id -> id.matches("C.") ? 2.6 : 0))
            .onLink("C")
            .reaching(r -> r.link().matches("C."), "C1/1", "C2/1", "C3/1", "C4/1", "C5/1", "C6/1")
            .butNotIn(TreeFixture.job(3, id -> id.matches("C.") ? 0.5 : 0)));
  }

  /** A link of four fibres, all well. */
  private static JobFixture four() {
    return JobFixture.singleMode()
        .link("K", 4, 80)
        .zero(ZeroFixture.zero("Z1"))
        .readAll("Z1", 1310, 1550);
  }

  /** Two cables with a pinned end that meets such an end. */
  private static List<ArrayPart> joined(Pins second) {
    PositionMap map = PositionMap.reversed(12);
    var pinned = ArrayFixture.plug(Key.UP, Pins.PINNED, Polish.FLAT);
    var other = ArrayFixture.plug(Key.UP, second, Polish.FLAT);
    return List.of(
        new ArrayPart("K", 1, "T1", PartKind.TRUNK, map, pinned, pinned),
        new ArrayPart("K", 2, "T2", PartKind.CORD, map, other, other));
  }
}
