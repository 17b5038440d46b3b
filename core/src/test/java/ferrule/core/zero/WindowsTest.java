package ferrule.core.zero;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class WindowsTest {

  @ParameterizedTest
  @CsvSource({
    "ONE_CORD, 0.20, -0.03, 0.20",
    "ONE_CORD, 0.10, -0.03, 0.10",
    "TWO_CORD, 0.20, -0.20, 0.40",
    "THREE_CORD, 0.20, -0.40, 0.20",
    "THREE_CORD, 0.10, -0.20, 0.10"
  })
  void theVerificationWindowFollowsTheMethod(
      Method method, double pair, double lowest, double highest) {
    VerificationWindow window = VerificationWindow.of(method, pair);
    assertThat(window.lowest().value()).isCloseTo(lowest, within(1e-12));
    assertThat(window.highest().value()).isCloseTo(highest, within(1e-12));
    assertThat(window.holds(new LossDb(lowest))).isTrue();
    assertThat(window.holds(new LossDb(highest))).isTrue();
    assertThat(window.holds(new LossDb(lowest - 0.001))).isFalse();
    assertThat(window.holds(new LossDb(highest + 0.001))).isFalse();
  }

  @Test
  void aHairOfArithmeticDoesNotLeaveTheWindow() {
    VerificationWindow window = VerificationWindow.of(Method.ONE_CORD, 0.3);
    assertThat(0.1 + 0.2).isGreaterThan(0.3);
    assertThat(window.holds(new LossDb(0.1 + 0.2))).isTrue();
    assertThat(window.shown()).isEqualTo("-0.03 to 0.30 dB");
  }

  /** With any two or three pairs inside the bound, the flow of light stays inside the window. */
  @ParameterizedTest
  @EnumSource(Method.class)
  void honestPairsStayInTheWindow(Method method) {
    double pair = 0.2;
    VerificationWindow window = VerificationWindow.of(method, pair);
    for (double lr : new double[] {0, 0.1, pair}) {
      for (double lx : new double[] {0, 0.1, pair}) {
        for (double xr : new double[] {0, 0.1, pair}) {
          LevelDbm launched = new LevelDbm(-5);
          LevelDbm direct = launched.after(new LossDb(lr));
          LevelDbm withThird = launched.after(new LossDb(lx)).after(new LossDb(xr));
          LossDb read =
              switch (method) {
                case ONE_CORD -> launched.lossTo(direct);
                case TWO_CORD -> direct.lossTo(withThird);
                case THREE_CORD -> withThird.lossTo(direct);
              };
          assertThat(window.holds(read)).as("%s: %s", method, read).isTrue();
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "SINGLE_MODE, -3, true",
    "SINGLE_MODE, -9, true",
    "SINGLE_MODE, -2.99, false",
    "SINGLE_MODE, -9.01, false",
    "MULTIMODE, -18, true",
    "MULTIMODE, -27, true",
    "MULTIMODE, -17.99, false",
    "MULTIMODE, -27.01, false",
    "MULTIMODE, -6, false"
  })
  void theUsualPowerWindowHoldsItsBounds(FibreKind kind, double dbm, boolean held) {
    PowerWindow window = PowerWindow.usual(kind);
    assertThat(window.holds(new LevelDbm(dbm))).isEqualTo(held);
    assertThat(window.origin()).contains("common practice, no source");
  }

  @Test
  void anEmptyPowerWindowIsRefused() {
    assertThatThrownBy(() -> new PowerWindow(new LevelDbm(-3), new LevelDbm(-9), "own"))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /**
   * Twelve cord faces for a duplex three-cord zero: common practice, no source; the count of two
   * ends, two fibres and three cords is arithmetic.
   */
  @Test
  void aDuplexThreeCordZeroShowsTwelveFaces() {
    assertThat(Method.THREE_CORD.cordFaces(2)).isEqualTo(12);
    assertThat(Method.TWO_CORD.cordFaces(2)).isEqualTo(8);
    assertThat(Method.ONE_CORD.cordFaces(2)).isEqualTo(4);
  }

  @ParameterizedTest
  @EnumSource(Method.class)
  void endConnectionsAndCordPairsMakeTwo(Method method) {
    assertThat(method.endConnections() + method.cordPairs()).isEqualTo(2);
    assertThat(method.cords()).isEqualTo(method.cordPairs() + 1);
    assertThat(Method.ofWord(method.word())).contains(method);
  }

  @Test
  void methodsAreCountsNeverLetters() {
    assertThat(Method.ofWord("A")).isEmpty();
    assertThat(Method.ofWord("B")).isEmpty();
    assertThat(Method.ofWord("One-Cord")).contains(Method.ONE_CORD);
  }

  @Test
  void aZeroHoldsOneLevelForACaseAndAtLeastOne() {
    assertThatThrownBy(() -> new Zero("Z", Method.ONE_CORD, List.of()))
        .isInstanceOf(IllegalArgumentException.class);
    ZeroFixture zero = ZeroFixture.zero("Z");
    assertThatThrownBy(() -> zero.with(ZeroFixture.zero("Y")))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(zero.build().level(Direction.A_TO_B, new Wavelength(1310))).isPresent();
    assertThat(zero.build().level(Direction.A_TO_B, new Wavelength(1625))).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "-6.31, 0.31, false",
    "-6.31, 0.33, false",
    "-6.31, 0.29, false",
    "-6.31, 0.331, true",
    "-6.31, 0.289, true",
    "NaN, 0.31, false",
    "-6.31, NaN, false"
  })
  void powerAndLossAgreeWithinTwoHundredths(double dbm, double loss, boolean contradicts) {
    Reading reading =
        new Reading(
            "K001",
            1,
            Direction.A_TO_B,
            new Wavelength(1310),
            dbm,
            loss,
            Double.NaN,
            "Z",
            Instant.EPOCH,
            "");
    assertThat(reading.contradicts(-6.00)).isEqualTo(contradicts);
  }

  @Test
  void aReadingHasAPowerOrALoss() {
    assertThatThrownBy(
            () ->
                new Reading(
                    "K001",
                    1,
                    Direction.A_TO_B,
                    new Wavelength(1310),
                    Double.NaN,
                    Double.NaN,
                    20,
                    "Z",
                    Instant.EPOCH,
                    ""))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
