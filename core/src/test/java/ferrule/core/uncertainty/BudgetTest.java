package ferrule.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.allowance.TestPlugs;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class BudgetTest {

  private static Budget budget(FibreKind kind, Method method, Map<String, Double> overrides) {
    return Budget.of(
        kind,
        new Wavelength(kind == FibreKind.SINGLE_MODE ? 1310 : 850),
        method,
        TestPlugs.REFERENCE,
        overrides);
  }

  @Test
  void theNamesThatAJobMayOverrideAreThoseOfTheContributions() {
    Set<String> found = new TreeSet<>();
    for (FibreKind kind : FibreKind.values()) {
      budget(kind, Method.THREE_CORD, Map.of()).contributions().forEach(c -> found.add(c.id()));
    }
    assertThat(found).isEqualTo(new TreeSet<>(Budget.IDS));
  }

  @Test
  void anOverrideReplacesItsContributionAndNoOther() {
    Budget usual = budget(FibreKind.SINGLE_MODE, Method.ONE_CORD, Map.of());
    Budget own = budget(FibreKind.SINGLE_MODE, Method.ONE_CORD, Map.of("source-drift", 0.0));
    assertThat(own.contributions()).hasSameSizeAs(usual.contributions());
    for (int i = 0; i < own.contributions().size(); i++) {
      Contribution one = own.contributions().get(i);
      if (one.id().equals("source-drift")) {
        assertThat(one.size()).isZero();
        assertThat(one.origin()).isEqualTo("set for this job");
      } else {
        assertThat(one).isEqualTo(usual.contributions().get(i));
      }
    }
    double drift = Law.RECTANGULAR.standardUncertainty(0.05);
    assertThat(own.standard(2, 1))
        .isCloseTo(Math.sqrt(Math.pow(usual.standard(2, 1), 2) - drift * drift), within(1e-12));
  }

  @ParameterizedTest
  @EnumSource(FibreKind.class)
  void theShortSumIsTheSumOfTheContributions(FibreKind kind) {
    for (Method method : Method.values()) {
      Budget budget = budget(kind, method, Map.of());
      assertThat(budget.combined(1.7, 0.9).u()).isCloseTo(budget.standard(1.7, 0.9), within(1e-12));
      assertThat(budget.expanded(1.7, 0.9)).isEqualTo(2 * budget.standard(1.7, 0.9));
    }
  }

  @ParameterizedTest
  @EnumSource(FibreKind.class)
  void moreCordsInTheZeroAndPoorerPlugsAddUncertainty(FibreKind kind) {
    double one = budget(kind, Method.ONE_CORD, Map.of()).standard(0.15, 0.3);
    double two = budget(kind, Method.TWO_CORD, Map.of()).standard(0.15, 0.3);
    double three = budget(kind, Method.THREE_CORD, Map.of()).standard(0.15, 0.3);
    assertThat(one).isLessThan(two);
    assertThat(two).isLessThan(three);
    double ordinary =
        Budget.of(
                kind,
                new Wavelength(kind == FibreKind.SINGLE_MODE ? 1310 : 850),
                Method.ONE_CORD,
                new TestPlugs(CordGrade.REFERENCE, CordGrade.STANDARD, true),
                Map.of())
            .standard(0.15, 0.3);
    assertThat(ordinary).isGreaterThan(one);
  }

  @Test
  void onlyMultimodeReadingsGrowMoreUncertainWithTheLoss() {
    Budget single = budget(FibreKind.SINGLE_MODE, Method.ONE_CORD, Map.of());
    Budget multi = budget(FibreKind.MULTIMODE, Method.ONE_CORD, Map.of());
    assertThat(single.standard(1, 5)).isEqualTo(single.standard(1, 0));
    assertThat(multi.standard(1, 5)).isGreaterThan(multi.standard(1, 1));
    assertThat(multi.standard(1, -1)).isEqualTo(multi.standard(1, 1));
    assertThat(single.standard(10, 1)).isGreaterThan(single.standard(1, 1));
  }

  @Test
  void everyContributionSaysWhereItsSizeComesFrom() {
    assertThat(budget(FibreKind.MULTIMODE, Method.TWO_CORD, Map.of()).contributions())
        .allSatisfy(
            c -> {
              assertThat(c.origin()).isNotBlank();
              assertThat(c.what()).isNotBlank();
            });
  }

  @Test
  void nothingKnownForCertainHasInfiniteDegreesOfFreedom() {
    double infinite = Double.POSITIVE_INFINITY;
    Combined known =
        Combined.independent(new double[] {0.1, 0.2}, new double[] {infinite, infinite});
    assertThat(known.degrees()).isEqualTo(infinite);
    assertThat(known.coverageFactor(Combined.USUAL_COVERAGE)).isCloseTo(1.96, within(0.0001));
    assertThat(Combined.independent(new double[0], new double[0]).u()).isZero();
  }
}
