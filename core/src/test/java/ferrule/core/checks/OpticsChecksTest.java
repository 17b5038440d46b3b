package ferrule.core.checks;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Glass;
import ferrule.core.optics.GlassModel;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class OpticsChecksTest {

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number(
                "sm.off.*", r -> SingleModeCoupling.offset(r.input("d"), 2 * r.input("w")).value());
            c.number(
                "sm.ratio.offset",
                r ->
                    SingleModeCoupling.offsetFactorFrom1310(new Wavelength(1310))
                        / SingleModeCoupling.offsetFactorFrom1310(new Wavelength(1550)));
            c.number(
                "sm.ratio.tilt",
                r ->
                    SingleModeCoupling.tiltFactorFrom1310(new Wavelength(1310))
                        / SingleModeCoupling.tiltFactorFrom1310(new Wavelength(1550)));
            c.number(
                "sm.gap.*",
                r ->
                    SingleModeCoupling.gapSpreading(r.input("z"), 2 * r.input("w"), wavelength(r))
                        .value());
            c.number(
                "fres.FPmax.1.4468",
                r -> SingleModeCoupling.gapReflection(1.31 / 4, new Wavelength(1310), 0).value());
            c.number("fres.period.1310", r -> ripplePeriodUm(r));
            c.number("wl.ray.1310-1550", r -> Glass.rayleigh(1, 1310, 1550));
            c.number("wl.ray.850-1300", r -> Glass.rayleigh(1, 850, 1300));
            c.number("wl.keiser.3.3a", r -> Glass.rayleigh(1.64, 850, 1310));
            c.number("wl.keiser.3.3b", r -> Glass.rayleigh(1.64, 850, 1550));
            c.number(
                "wl.att.sm.*",
                r ->
                    GlassModel.dbPerKm(
                        FibreKind.SINGLE_MODE,
                        new Wavelength((int) Math.round(1000 * r.input("lambda")))));
            c.number(
                "wl.slope.sm.*", r -> GlassModel.slopePerNm(FibreKind.SINGLE_MODE, wavelength(r)));
            c.number(
                "wl.curv.sm.*",
                r -> GlassModel.curvaturePerNm2(FibreKind.SINGLE_MODE, wavelength(r)));
          });

  private static Wavelength wavelength(Check row) {
    return new Wavelength((int) row.input("lambda"));
  }

  /** The first gap beyond a quarter wavelength at which the two faces cost nothing again. */
  private static double ripplePeriodUm(Check row) {
    double low = row.input("lambda") / 4000;
    double high = 3 * low;
    while (high - low > 1e-9) {
      double third = (high - low) / 3;
      boolean left =
          SingleModeCoupling.gapReflection(low + third, wavelength(row), 0).value()
              < SingleModeCoupling.gapReflection(high - third, wavelength(row), 0).value();
      high = left ? high - third : high;
      low = left ? low : low + third;
    }
    return low;
  }

  static List<Check> rows() {
    return CheckFile.read("optics");
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
