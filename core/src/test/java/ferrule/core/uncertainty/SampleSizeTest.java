package ferrule.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Sizes and error rates against values computed apart from Ferrule (sources in the table). */
class SampleSizeTest {

  @ParameterizedTest
  @CsvFileSource(resources = "/checks/sample-sizes.csv", numLinesToSkip = 1)
  void sizesAndErrorRatesAreThoseOfTheTable(String what, int lot, double shareOrBad, double value) {
    if (what.equals("size")) {
      int bad = SampleSize.badOf(lot, shareOrBad);
      assertThat(SampleSize.toFind(lot, bad, 0.95)).isEqualTo((int) value);
    } else {
      int sample = Integer.parseInt(what.substring("missed of ".length()));
      assertThat(SampleSize.missed(lot, (int) shareOrBad, sample)).isCloseTo(value, within(5e-5));
    }
  }

  @Test
  void aSampleOfAllMissesNothingAndOneOfNoneEverything() {
    assertThat(SampleSize.missed(50, 1, 50)).isZero();
    assertThat(SampleSize.missed(50, 1, 0)).isEqualTo(1);
    assertThat(SampleSize.missed(50, 0, 50)).isEqualTo(1);
    assertThat(SampleSize.toFind(50, 1, 0.95)).isEqualTo(48);
    assertThat(SampleSize.badOf(3, 0.01)).isEqualTo(1);
    assertThatThrownBy(() -> SampleSize.missed(5, 6, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
