package ferrule.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class EventRateTest {

  @Test
  void countingAddsEventsAndTrials() {
    EventRate rate = new EventRate(1, 500).after(3, 1500);
    assertThat(rate).isEqualTo(new EventRate(4, 2000));
    assertThat(rate.mean()).isCloseTo(0.002, within(1e-12));
  }

  /** A gamma law of whole shape n lies below x with the chance that Poisson(x) gives n or more. */
  @Test
  void quantilesAgreeWithThePoissonLaw() {
    for (int shape = 1; shape <= 6; shape++) {
      for (double p : new double[] {0.05, 0.5, 0.95}) {
        double x = new EventRate(shape, 700).quantile(p) * 700;
        double fewer = 0;
        double term = Math.exp(-x);
        for (int k = 0; k < shape; k++) {
          fewer += term;
          term *= x / (k + 1);
        }
        assertThat(1 - fewer).isCloseTo(p, within(1e-9));
      }
    }
  }

  @Test
  void withoutAnythingThereIsNoRate() {
    assertThatIllegalArgumentException().isThrownBy(() -> new EventRate(0, 500));
    assertThatIllegalArgumentException().isThrownBy(() -> new EventRate(1, 0));
    assertThatIllegalArgumentException().isThrownBy(() -> new EventRate(Double.NaN, 1));
  }
}
