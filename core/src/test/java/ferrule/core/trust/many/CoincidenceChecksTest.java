package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.checks.Check;
import ferrule.core.checks.CheckFile;
import ferrule.core.checks.Computations;
import ferrule.core.checks.TextbookStatistics;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CoincidenceChecksTest {

  private static final double STEP_DB = 0.01;

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("dup.0.*", r -> Coincidence.printedAlike(r.input("sigma"), r.input("q")));
            c.number("dup.approx.2", r -> Coincidence.smallStep(r.input("sigma"), r.input("q")));
            c.number(
                "dup.list.*",
                r ->
                    Math.pow(
                        Coincidence.printedAlike(r.input("sigma"), STEP_DB),
                        r.numberAfter("dup.list.")));
          });

  static List<Check> rows() {
    return CheckFile.read("repeats");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rows")
  void coreAgreesWithTheOutsideValue(Check row) {
    CORE.assertAgrees(row);
  }

  @Test
  void everyComputationHasARow() {
    CORE.assertEveryComputationHasARow(rows());
  }

  /** Two printed alike: the closed form against sums over all cells, itself checked for n alike. */
  @Test
  void theClosedFormIsTheSumOverAllCells() {
    for (double step : new double[] {0.001, 0.01, 0.05, 0.1}) {
      for (double sigma : new double[] {0.002, 0.01, 0.03, 0.11, 0.4}) {
        double expected = TextbookStatistics.printedAlike(sigma, step, 2);
        assertThat(Coincidence.printedAlike(sigma, step))
            .as("sigma %s, step %s", sigma, step)
            .isCloseTo(expected, within(2e-5 + 1e-4 * expected));
      }
    }
  }

  @Test
  void noScatterAndNoStepAreTheEnds() {
    assertThat(Coincidence.printedAlike(0, 0.01)).isEqualTo(1);
    assertThat(Coincidence.printedAlike(1e9, 0.01)).isBetween(0.0, 1e-11);
    assertThat(Coincidence.printedAlike(0.05, 1e300)).isCloseTo(1, within(1e-12));
  }

  /** Two values: twice the squared distance is exponential of mean 2. */
  @Test
  void theShareAsFarOutFollowsChiSquared() {
    assertThat(Coincidence.shareAsFarOut(2, 3)).isCloseTo(Math.exp(-3), within(1e-15));
    assertThat(Coincidence.shareAsFarOut(4, 3)).isCloseTo(4 * Math.exp(-3), within(1e-15));
    assertThat(Coincidence.shareAsFarOut(4, 0)).isEqualTo(1);
    assertThat(Coincidence.shareAsFarOut(4, 1e308)).isEqualTo(0);
  }

  @Test
  void theStepIsToldFromTheNumbers() {
    assertThat(PrintedStep.ofMany(new double[] {0.31, 0.27, 0.3, 0.44})).isEqualTo(0.01);
    assertThat(PrintedStep.ofMany(new double[] {0.35, 0.25, 0.3, 0.45})).isEqualTo(0.05);
    assertThat(PrintedStep.ofFew(new double[] {0.35, 0.251, 0.3})).isEqualTo(0.001);
    assertThat(PrintedStep.ofMany(new double[] {Math.PI, Math.E, 1e300})).isEqualTo(0.00001);
  }
}
