package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.entry.TypedNumber.Kind;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What looks like a slip is asked about; the bounds are common practice, no source. */
class SlipTest {

  @Test
  void aLevelWithoutItsMinusSignIsAskedAboutWithWhatWasProbablyMeant() {
    Slip slip = Slip.of(Kind.LEVEL, 5.6, OptionalDouble.of(-5.12)).orElseThrow();
    assertThat(slip.question()).contains("5.60 dBm against the zero's -5.12 dBm", "minus sign");
    assertThat(slip.instead()).hasValue(-5.6);
  }

  @Test
  void aLossWithItsSignTurnedIsAskedAboutWithWhatWasProbablyMeant() {
    Slip slip = Slip.of(Kind.LOSS, -2.4, OptionalDouble.empty()).orElseThrow();
    assertThat(slip.question()).contains("more light than went in");
    assertThat(slip.instead()).hasValue(2.4);
  }

  @ParameterizedTest
  @CsvSource({"LEVEL,-5.5", "LEVEL,-4.2", "LEVEL,-40", "LOSS,0", "LOSS,-0.9", "LOSS,34.9"})
  void whatCablingCanDoIsNotAskedAbout(Kind kind, double typed) {
    assertThat(Slip.of(kind, typed, OptionalDouble.of(-5.12))).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"LEVEL,-60", "LOSS,40"})
  void aDarkFibreIsAskedAboutWithoutAGuess(Kind kind, double typed) {
    Slip slip = Slip.of(kind, typed, OptionalDouble.of(-5.12)).orElseThrow();
    assertThat(slip.question()).contains("hardly any light arrives");
    assertThat(slip.instead()).isEmpty();
  }

  @Test
  void aLevelWithoutAZeroCannotBeWeighed() {
    assertThat(Slip.of(Kind.LEVEL, 5.6, OptionalDouble.empty())).isEmpty();
  }
}
