package ferrule.core.uncertainty;

import ferrule.core.allowance.TestPlugs;
import ferrule.core.checks.Check;
import ferrule.core.checks.CheckFile;
import ferrule.core.checks.Computations;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The default budget. Rows marked "assumed" check the arithmetic, not any real instrument. */
class BudgetChecksTest {

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("bud.rect", r -> Law.RECTANGULAR.standardUncertainty(r.input("a")));
            c.number("bud.tri", r -> Law.TRIANGULAR.standardUncertainty(r.input("a")));
            c.number("bud.arc", r -> Law.ARCSINE.standardUncertainty(r.input("a")));
            c.number("bud.nu.rel", r -> Combined.degreesOf(r.input("du/u")));
            c.number("bud.u.*", r -> Case.of(r).standard());
            c.number("bud.U.*", r -> Case.of(r).expanded());
            c.number("bud.bias.*", BudgetChecksTest::bias);
            c.number("bud.corr.one", r -> plugGeometry());
            c.number("wex.A", r -> exampleLoss(r));
            c.number("wex.bias", r -> 2 * Budget.REFERENCE_PLUG_DB);
            c.number("wex.u", r -> example(r).u());
            c.number("wex.nu", r -> example(r).degrees());
            c.number("wex.k", r -> example(r).coverageFactor(Combined.USUAL_COVERAGE));
            c.number("wex.U", r -> example(r).expanded(Combined.USUAL_COVERAGE));
          });

  /** One case of the default budget, from an id such as "bud.u.SM.1310.R1.one". */
  private record Case(Budget budget, double km, double lossDb) {
    static Case of(Check row) {
      String[] parts = row.id().split("\\.", -1);
      boolean singleMode = parts[2].equals("SM");
      return new Case(
          Budget.of(
              singleMode ? FibreKind.SINGLE_MODE : FibreKind.MULTIMODE,
              new Wavelength(Integer.parseInt(parts[3])),
              method(parts[5]),
              plugs(parts[4]),
              Map.of()),
          singleMode ? 2 : 0.3,
          1.0);
    }

    double standard() {
      return budget.standard(km, lossDb);
    }

    double expanded() {
      return budget.expanded(km, lossDb);
    }
  }

  private static Method method(String cords) {
    return Method.ofWord(cords + "-cord").orElseThrow();
  }

  private static TestPlugs plugs(String grade) {
    CordGrade cord = grade.equals("R1") ? CordGrade.REFERENCE : CordGrade.STANDARD;
    return new TestPlugs(cord, cord, true);
  }

  /** Two cord plugs at the link's ends, less two plugs for each pair that the zero took out. */
  private static double bias(Check row) {
    String[] parts = row.id().split("\\.", -1);
    double plug = parts[2].equals("R1") ? Budget.REFERENCE_PLUG_DB : Budget.ORDINARY_PLUG_DB;
    return 2 * plug - method(parts[3]).cordPairs() * 2 * plug;
  }

  private static Budget singleModeOneCord() {
    return Budget.of(
        FibreKind.SINGLE_MODE,
        new Wavelength(1310),
        Method.ONE_CORD,
        TestPlugs.REFERENCE,
        Map.of());
  }

  private static double plugGeometry() {
    return singleModeOneCord().contributions().stream()
        .filter(c -> c.id().equals("plug-geometry"))
        .findFirst()
        .orElseThrow()
        .product(1, 1);
  }

  private static double exampleLoss(Check row) {
    return new LevelDbm(row.input("L_ref")).lossTo(new LevelDbm(row.input("L_meas"))).value();
  }

  private static Combined example(Check row) {
    return singleModeOneCord().combined(2, exampleLoss(row));
  }

  static List<Check> rows() {
    return CheckFile.read("budget");
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
}
