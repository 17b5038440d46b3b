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

  private boolean fit(
      Method method, World world, TestCord l, TestCord r, TestCord x, List<Tip> far) {
    double verification = verificationDb(method, world, l, r, x, far, false);
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

  private double verificationDb(
      Method method,
      World world,
      TestCord l,
      TestCord r,
      TestCord x,
      List<Tip> far,
      boolean longer) {
    double straight = pairDb(world, l.tips, r.tips, longer);
    double through = pairDb(world, l.tips, x.tips, longer) + pairDb(world, far, r.tips, longer);
    return switch (method) {
      case ONE_CORD -> straight;
      case TWO_CORD -> through - straight;
      case THREE_CORD -> straight - through;
    };
  }

  /** Mean over the legs of two cords mated, dB. */
  private double pairDb(World world, List<Tip> ones, List<Tip> others, boolean longer) {
    double sum = 0;
    for (int i = 0; i < ones.size(); i++) {
      sum += world.matedDb(kind, ones.get(i), others.get(i), longer);
    }
    return sum / ones.size();
  }

  TestCord launch(Direction direction) {
    return direction == Direction.A_TO_B ? launchAb : launchBa;
  }

  TestCord receive(Direction direction) {
    return direction == Direction.A_TO_B ? receiveAb : receiveBa;
  }

  /** The verification of one direction before repeatability and noise, dB. */
  double verificationDb(Method method, World world, Direction direction, boolean longer) {
    return verificationDb(
        method, world, launch(direction), receive(direction), third, thirdFarTips, longer);
  }

  /** Cord pairs that stood in line when the zero was set, dB. */
  double takenOutDb(Method method, World world, Direction direction, boolean longer) {
    List<Tip> l = launch(direction).tips;
    List<Tip> r = receive(direction).tips;
    return switch (method) {
      case ONE_CORD -> 0;
      case TWO_CORD -> pairDb(world, l, r, longer);
      case THREE_CORD ->
          pairDb(world, l, third.tips, longer) + pairDb(world, thirdFarTips, r, longer);
    };
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
        category,
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
