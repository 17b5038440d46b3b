package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.optics.FibreKind;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PhysicsTest {

  static List<String[]> couplings() {
    return Table.rows("couplings.csv");
  }

  static List<String[]> plugPairs() {
    return Table.rows("plug-pairs.csv");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("couplings")
  void couplingAgreesWithTheCheckValues(
      String id,
      double w1,
      double w2,
      double lambda,
      double n,
      double offset,
      double tilt,
      double gap,
      double expected,
      double tolerance,
      String source,
      String confidence) {
    assertThat(source).isNotBlank();
    assertThat(confidence).isIn("computed", "computed-2");
    assertThat(Physics.couplingDb(w1, w2, lambda, n, offset, Math.toRadians(tilt), gap))
        .as(id)
        .isEqualTo(expected, within(tolerance));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("plugPairs")
  void drawnPlugsHaveTheirGradesMeanAndNinetySevenPercentPoint(
      String id,
      String one,
      String other,
      double mean,
      double p97,
      double meanTolerance,
      double p97Tolerance,
      String source,
      String confidence) {
    assertThat(source).isNotBlank();
    assertThat(confidence).isEqualTo("mc");
    Dice dice = new Dice(20260302);
    Plug.Grade first = Plug.Grade.valueOf(one);
    Plug.Grade second = Plug.Grade.valueOf(other);
    double[] losses = new double[200_000];
    for (int i = 0; i < losses.length; i++) {
      losses[i] = Physics.matedDb(first.draw(dice), second.draw(dice), false);
    }
    Arrays.sort(losses);
    assertThat(Arrays.stream(losses).average().orElseThrow())
        .as(id)
        .isEqualTo(mean, within(meanTolerance));
    assertThat(losses[(int) (0.97 * losses.length)]).as(id).isEqualTo(p97, within(p97Tolerance));
  }

  @Test
  void offsetLosesMoreAtTheShorterWavelengthByTheSquareOfTheModeField() {
    // 1.27788 offset, 1.09554 tilt: from the closed forms with 9.2 and 10.4 µm (own arithmetic).
    Plug offset = new Plug(0.7, 0, 0, 0, Physics.MFD_1310_UM);
    Plug tilted = new Plug(0, 0, Math.toRadians(0.4), 0, Physics.MFD_1310_UM);
    assertThat(ratio(offset)).isEqualTo(1.27788, within(1e-4));
    assertThat(ratio(tilted)).isEqualTo(1.09554, within(1e-4));
  }

  private static double ratio(Plug plug) {
    return Physics.matedDb(plug, Plug.IDEAL, false) / Physics.matedDb(plug, Plug.IDEAL, true);
  }

  @Test
  void logNormalEndConnectionsHaveTheMeanAndSpreadOfTheFacts() {
    // Mean 0.12 dB, spread 0.078 dB: the assumptions of the own simulation of pattern tests.
    Dice dice = new Dice(7);
    World world = worldOf(World.Law.LOG_NORMAL);
    double sum = 0;
    double squares = 0;
    int count = 200_000;
    for (int i = 0; i < count; i++) {
      double loss = world.linkTip(FibreKind.SINGLE_MODE, dice).ownShortDb();
      sum += loss;
      squares += loss * loss;
    }
    double mean = sum / count;
    assertThat(mean).isEqualTo(0.12, within(0.001));
    assertThat(Math.sqrt(squares / count - mean * mean)).isEqualTo(0.078, within(0.002));
  }

  @Test
  void multimodeConnectionsLoseNearlyTheSameAtBothWavelengths() {
    Dice dice = new Dice(11);
    World world = new World(dice);
    for (int i = 0; i < 1000; i++) {
      Tip end = world.linkTip(FibreKind.MULTIMODE, dice);
      Tip cord = world.cordTip(FibreKind.MULTIMODE, dice);
      double shorter = world.matedDb(FibreKind.MULTIMODE, end, cord, false);
      double longer = world.matedDb(FibreKind.MULTIMODE, end, cord, true);
      assertThat(longer).isEqualTo(shorter, within(0.005 + 0.2 * shorter));
    }
  }

  private static World worldOf(World.Law law) {
    for (long seed = 0; ; seed++) {
      World world = new World(new Dice(seed));
      if (world.law == law) {
        return world;
      }
    }
  }

  /** Check values fres.FPmax.1.4468 and fres.period.1310: Airy function, computed. */
  @Test
  void anAirGapRipplesBetweenNothingAndItsCoherentMost() {
    assertThat(Physics.cavityDb(1.31 / 4, 1.31, 0)).isCloseTo(0.57947503, within(2e-4));
    assertThat(Physics.cavityDb(0.655, 1.31, 0)).isCloseTo(0, within(1e-9));
  }

  /** A wide source averages the ripple once the gap has a full period across it (14.3 µm). */
  @Test
  void aWideSourceSeesTheMeanOfTheRipple() {
    assertThat(Physics.cavityDb(28.6, 1.31, 0.06)).isCloseTo(0.29, within(0.03));
    assertThat(Physics.cavityDb(28.6 + 1.31 / 4, 1.31, 0.06)).isCloseTo(0.29, within(0.03));
  }
}
