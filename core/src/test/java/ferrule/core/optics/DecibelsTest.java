package ferrule.core.optics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecibelsTest {

  @ParameterizedTest
  @CsvSource({
    "0, 0.00",
    "-0.0, 0.00",
    "-0.004, 0.00",
    "-0.006, -0.01",
    "0.005, 0.01",
    "0.105, 0.11",
    "1.2, 1.20",
    "-20.03, -20.03",
    "12345.678, 12345.68",
    "0.0049999, 0.00"
  })
  void shownHasTwoDecimalsAndNoNegativeNothing(double value, String shown) {
    assertThat(Decibels.shown(value)).isEqualTo(shown);
  }

  @ParameterizedTest
  @ValueSource(
      doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, 1e300, -1e300})
  void whatIsNoFigureIsShownAsItIs(double value) {
    assertThat(Decibels.shown(value)).isEqualTo(String.valueOf(value));
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void lossesAndLevelsAreFinite(double value) {
    assertThatThrownBy(() -> new LossDb(value)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new LevelDbm(value)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void noPowerIsNoLevel() {
    assertThatThrownBy(() -> LevelDbm.ofMilliwatts(0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> LossDb.ofTransmittance(0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void lossesInARowMultiplyTheLight() {
    LossDb one = new LossDb(0.35);
    LossDb other = new LossDb(1.75);
    assertThat(one.plus(other).transmittance())
        .isCloseTo(one.transmittance() * other.transmittance(), within(1e-15));
    assertThat(one.plus(other).minus(other).value()).isCloseTo(0.35, within(1e-15));
    assertThat(one.times(4).value()).isCloseTo(1.4, within(1e-15));
  }

  @Test
  void aLevelAfterALossIsThatLossBelow() {
    LevelDbm sent = new LevelDbm(-5.5);
    assertThat(sent.lossTo(sent.after(new LossDb(0.31))).value()).isCloseTo(0.31, within(1e-12));
    assertThat(sent).isGreaterThan(sent.after(new LossDb(0.01)));
  }
}
