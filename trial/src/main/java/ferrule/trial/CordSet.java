package ferrule.trial;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** The test cords that one crew mates together: launch and receive for each direction, a third. */
final class CordSet {

  /** A cord's link-side ends, one for each leg, and its papers. */
  static final class TestCord {
    final String id;
    final List<Tip> tips;
    int matings;

    TestCord(String id, List<Tip> tips, int matings) {
      this.id = id;
      this.tips = tips;
      this.matings = matings;
    }
  }

  final FibreKind kind;
  final FibreCategory category;

  /** As the papers say. */
  FibreCategory paperCategory;

  private final TestCord launchAb;
  private final TestCord receiveAb;
  private final TestCord launchBa;
  private final TestCord receiveBa;

  /** The third cord and its two ends; used by two-cord verifications and three-cord zeros. */
  final TestCord third;

  final List<Tip> thirdFarTips;
  private final Connector connector;

  /**
   * Cords picked as a careful crew picks them: their own verification lies well within its window.
   *
   * @param reversed whether the same two cords serve both directions
   */
  CordSet(
      String name,
      FibreCategory category,
      Connector connector,
      int legs,
      boolean reversed,
      Method method,
      World world,
      Dice dice) {
    kind = category.kind();
    this.category = category;
    paperCategory = category;
    this.connector = connector;
    TestCord l = cord(name + "-1", legs, world, dice);
    TestCord r = cord(name + "-2", legs, world, dice);
    TestCord l2 = reversed ? r : cord(name + "-3", legs, world, dice);
    TestCord r2 = reversed ? l : cord(name + "-4", legs, world, dice);
    TestCord x = cord(name + "-5", legs, world, dice);
    List<Tip> far = tips(legs, world, dice);
    while (!fit(method, world, l, r, x, far) || !fit(method, world, l2, r2, x, far)) {
      l = cord(name + "-1", legs, world, dice);
      r = cord(name + "-2", legs, world, dice);
      l2 = reversed ? r : cord(name + "-3", legs, world, dice);
      r2 = reversed ? l : cord(name + "-4", legs, world, dice);
      x = cord(name + "-5", legs, world, dice);
      far = tips(legs, world, dice);
    }
    launchAb = l;
    receiveAb = r;
    launchBa = l2;
    receiveBa = r2;
    third = x;
    thirdFarTips = far;
  }

  private TestCord cord(String id, int legs, World world, Dice dice) {
    return new TestCord(id, tips(legs, world, dice), dice.whole(20, 250));
  }

  private List<Tip> tips(int legs, World world, Dice dice) {
    List<Tip> tips = new ArrayList<>();
    for (int i = 0; i < legs; i++) {
      tips.add(world.cordTip(kind, dice));
    }
    return tips;
  }

  /** Without repeatability: the nominal verification lies in its window, with some room. */
  private boolean fit(
      Method method, World world, TestCord l, TestCord r, TestCord x, List<Tip> far) {
    double straight = pairDb(world, l.tips, r.tips, 0, false);
    double through = pairDb(world, l.tips, x.tips, 0, false) + pairDb(world, far, r.tips, 0, false);
    double verification =
        switch (method) {
          case ONE_CORD -> straight;
          case TWO_CORD -> through - straight;
          case THREE_CORD -> straight - through;
        };
    double[] window = window(method, kind);
    return verification >= window[0] && verification <= window[1] - 0.03;
  }

  /** What a verification may read: trade figures for one pair, and the signal flow. */
  static double[] window(Method method, FibreKind kind) {
    double pair = kind == FibreKind.SINGLE_MODE ? 0.20 : 0.10;
    return switch (method) {
      case ONE_CORD -> new double[] {-0.03, pair};
      case TWO_CORD -> new double[] {-pair, 2 * pair};
      case THREE_CORD -> new double[] {-2 * pair, pair};
    };
  }

  /** Mean over the legs of two cords mated, dB; no mating amplifies. */
  private double pairDb(
      World world, List<Tip> ones, List<Tip> others, double mating, boolean longer) {
    double sum = 0;
    for (int i = 0; i < ones.size(); i++) {
      sum += world.matedDb(kind, ones.get(i), others.get(i), longer);
    }
    return Math.abs(sum / ones.size() + mating * world.matingShare(kind, longer));
  }

  TestCord launch(Direction direction) {
    return direction == Direction.A_TO_B ? launchAb : launchBa;
  }

  TestCord receive(Direction direction) {
    return direction == Direction.A_TO_B ? receiveAb : receiveBa;
  }

  /** Launch mated to receive, dB, in a mating that reads this much more than the usual one. */
  double straightDb(World world, Direction direction, double mating, boolean longer) {
    return pairDb(world, launch(direction).tips, receive(direction).tips, mating, longer);
  }

  /** Launch to third to receive, dB. */
  double throughDb(World world, Direction direction, double[] matings, boolean longer) {
    return pairDb(world, launch(direction).tips, third.tips, matings[0], longer)
        + pairDb(world, thirdFarTips, receive(direction).tips, matings[1], longer);
  }

  /** Every cord once. */
  List<TestCord> cords() {
    List<TestCord> all = new ArrayList<>(List.of(launchAb, receiveAb));
    if (launchBa != receiveAb) {
      all.add(launchBa);
      all.add(receiveBa);
    }
    all.add(third);
    return all;
  }

  /** As the papers list a cord. */
  Cord paper(TestCord cord) {
    Optional<CordGrade> reference = Optional.of(CordGrade.REFERENCE);
    return new Cord(
        cord.id,
        paperCategory,
        Optional.of(2.0),
        new Cord.CordEnd(Optional.of(connector), reference),
        cord == third
            ? new Cord.CordEnd(Optional.of(connector), reference)
            : new Cord.CordEnd(
                Optional.of(new Connector("SC", Connector.Polish.UPC)),
                Optional.of(CordGrade.STANDARD)),
        OptionalInt.of(cord.matings),
        Optional.of(LocalDate.of(2026, 1, 12)));
  }
}
