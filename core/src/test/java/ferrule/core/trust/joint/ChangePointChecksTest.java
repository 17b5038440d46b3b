package ferrule.core.trust.joint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.checks.Check;
import ferrule.core.checks.CheckFile;
import ferrule.core.checks.TextbookStatistics;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The chance of the largest cut of an honest series, which steps are priced by, against simulated
 * critical values. The formula is from memory, the values are not published: simulation is all
 * there is.
 */
class ChangePointChecksTest {

  /** A formula for long series and small chances is taken at 5 and 1 % of a dozen values too. */
  private static final double OF_AN_APPROXIMATION = 0.06;

  static List<Check> knownSigma() {
    return CheckFile.read("textbook-statistics").stream()
        .filter(r -> r.id().startsWith("cp.known."))
        .toList();
  }

  /** By bisection; the chance falls as the cut grows. */
  private static double critical(double chance, int n, int least) {
    double low = 1;
    double high = 9;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (Looks.logLargestCut(middle, n, least) > Math.log(chance)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("knownSigma")
  void criticalValuesAreThoseOfASimulation(Check row) {
    double critical = critical(row.input("chance"), (int) row.input("n"), 1);
    assertThat(critical)
        .isCloseTo(Double.parseDouble(row.expected()), within(OF_AN_APPROXIMATION))
        .as("on the safe side")
        .isGreaterThan(Double.parseDouble(row.expected()) - 0.02);
  }

  /** Where it is used: five fibres on either side and the chance allowed for steps. */
  @ParameterizedTest
  @ValueSource(ints = {12, 24, 48})
  void honestSeriesRingAsRarelyAsAllowed(int n) {
    double critical = critical(Looks.STEP, n, Search.FEWEST);
    SplittableRandom random = new SplittableRandom(n);
    double[] x = new double[n];
    int rung = 0;
    int series = 200_000;
    for (int s = 0; s < series; s++) {
      Arrays.setAll(x, i -> random.nextGaussian());
      rung += Math.abs(TextbookStatistics.largestCut(x, 1, Search.FEWEST).t()) > critical ? 1 : 0;
    }
    // 120 are expected; three standard deviations are 33.
    assertThat((double) rung).isCloseTo(series * Looks.STEP, within(40.0));
  }
}
