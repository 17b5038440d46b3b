package ferrule.core.checks;

import ferrule.core.uncertainty.Combined;
import ferrule.core.uncertainty.Law;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The examples of JCGM 100:2008, annex H, as far as they combine uncertainties. */
class GumChecksTest {

  private static final double KNOWN = Double.POSITIVE_INFINITY;

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("gum.h1.ud", r -> EndGauge.ofDifference().u());
            c.number("gum.h1.nu_d", r -> EndGauge.ofDifference().degrees());
            c.number("gum.h1.uc", r -> EndGauge.ofLength().u());
            c.number("gum.h1.nu", r -> EndGauge.ofLength().degrees());
            c.number("gum.h1.nu.trunc", r -> truncatedDegrees(r.number()));
            c.number(
                "gum.h1.t99", r -> new Combined(1, r.input("nu")).coverageFactor(r.input("p")));
            c.number("gum.h1.U99", r -> EndGauge.ofLength().expanded(0.99));
            c.number("gum.h1.2nd", r -> EndGauge.expansionTimesTemperature());
            c.number("gum.h1.uc2", r -> EndGauge.toSecondOrder().u());
            c.number("gum.h2.uR", r -> new Impedance(r).correlated(Impedance.R));
            c.number("gum.h2.uX", r -> new Impedance(r).correlated(Impedance.X));
            c.number("gum.h2.uZ", r -> new Impedance(r).correlated(Impedance.Z));
            c.number("gum.h2.rRX", r -> new Impedance(r).correlation(Impedance.R, Impedance.X));
            c.number("gum.h2.rRZ", r -> new Impedance(r).correlation(Impedance.R, Impedance.Z));
            c.number("gum.h2.rXZ", r -> new Impedance(r).correlation(Impedance.X, Impedance.Z));
            c.number("gum.h2.uR.uncorr", r -> new Impedance(r).ignoring(Impedance.R));
            c.number("gum.h2.uX.uncorr", r -> new Impedance(r).ignoring(Impedance.X));
            c.number("gum.h2.uZ.uncorr", r -> new Impedance(r).ignoring(Impedance.Z));
            c.number("gum.h3.u30", r -> predictionOfLine(r.list("t"), r.list("b"), 30 - 20));
          });

  /** H.1: an end gauge of 50 mm compared with a standard; everything in nm and K. */
  private static final class EndGauge {
    private static final double STANDARD_NM = 50.000623e6;
    private static final double EXPANSION_PER_K = 11.5e-6;
    private static final double U_EXPANSION = Law.RECTANGULAR.standardUncertainty(2e-6);
    private static final double U_EXPANSION_DIFFERENCE = Law.RECTANGULAR.standardUncertainty(1e-6);
    private static final double U_TEMPERATURE_DIFFERENCE =
        Law.RECTANGULAR.standardUncertainty(0.05);
    private static final double MEAN_TEMPERATURE_K = -0.1;

    /** The bench's mean temperature, and its cycling by half a kelvin: prints 0.41 K. */
    private static final double U_TEMPERATURE_K =
        Combined.independent(
                new double[] {0.2, Law.ARCSINE.standardUncertainty(0.5)},
                new double[] {KNOWN, KNOWN})
            .u();

    /** Repeat readings 5.8 nm; random 10 nm at t95 of 5; systematic 20 nm at three spreads. */
    static Combined ofDifference() {
      double t95 = new Combined(1, 5).coverageFactor(0.95);
      return Combined.independent(
          new double[] {13 / Math.sqrt(5), 10 / t95, 20 / 3.0}, new double[] {24, 5, 8});
    }

    static Combined ofLength() {
      return Combined.independent(
          new double[] {
            75 / 3.0,
            ofDifference().u(),
            STANDARD_NM * MEAN_TEMPERATURE_K * U_EXPANSION_DIFFERENCE,
            STANDARD_NM * EXPANSION_PER_K * U_TEMPERATURE_DIFFERENCE
          },
          new double[] {18, ofDifference().degrees(), 50, 2});
    }

    static double expansionTimesTemperature() {
      return STANDARD_NM * U_EXPANSION_DIFFERENCE * U_TEMPERATURE_K;
    }

    /** H.1.7: the two second-order terms that matter. */
    static Combined toSecondOrder() {
      return Combined.independent(
          new double[] {
            ofLength().u(),
            expansionTimesTemperature(),
            STANDARD_NM * U_EXPANSION * U_TEMPERATURE_DIFFERENCE
          },
          new double[] {KNOWN, KNOWN, KNOWN});
    }
  }

  /** H.2: resistance, reactance and impedance from voltage, current and phase read together. */
  private static final class Impedance {
    static final int R = 0;
    static final int X = 1;
    static final int Z = 2;

    private final double[][] products;
    private final double[][] correlation = new double[3][3];

    Impedance(Check row) {
      double[][] read = {row.list("V"), row.list("I"), row.list("phi")};
      double volt = mean(read[0]);
      double ampere = mean(read[1]) / 1000;
      double phase = mean(read[2]);
      double[] u = new double[3];
      for (int i = 0; i < 3; i++) {
        u[i] = Math.sqrt(covarianceOfMeans(read[i], read[i]));
      }
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
          correlation[i][j] = covarianceOfMeans(read[i], read[j]) / (u[i] * u[j]);
        }
      }
      u[1] /= 1000;
      double z = volt / ampere;
      double cos = Math.cos(phase);
      double sin = Math.sin(phase);
      products =
          new double[][] {
            {cos / ampere * u[0], -z * cos / ampere * u[1], -z * sin * u[2]},
            {sin / ampere * u[0], -z * sin / ampere * u[1], z * cos * u[2]},
            {u[0] / ampere, -z / ampere * u[1], 0}
          };
    }

    double correlated(int quantity) {
      return Combined.correlated(products[quantity], correlation).u();
    }

    double correlation(int one, int other) {
      return Combined.covariance(products[one], products[other], correlation)
          / (correlated(one) * correlated(other));
    }

    double ignoring(int quantity) {
      return Combined.independent(products[quantity], new double[] {4, 4, 4}).u();
    }
  }

  /**
   * The whole number of degrees of freedom that core's coverage factor rests on: the one whose
   * factor it is.
   */
  private static double truncatedDegrees(double degrees) {
    double factor = new Combined(1, degrees).coverageFactor(0.99);
    for (int whole = 1; whole < 1000; whole++) {
      if (new Combined(1, whole).coverageFactor(0.99) == factor) {
        return whole;
      }
    }
    return Double.NaN;
  }

  /** H.3: intercept and slope are correlated inputs of a prediction from the line. */
  private static double predictionOfLine(double[] t, double[] b, double beyond) {
    int n = t.length;
    double sumX = 0;
    double sumXx = 0;
    double sumY = 0;
    double sumXy = 0;
    for (int i = 0; i < n; i++) {
      double x = t[i] - 20;
      sumX += x;
      sumXx += x * x;
      sumY += b[i];
      sumXy += x * b[i];
    }
    double determinant = n * sumXx - sumX * sumX;
    double slope = (n * sumXy - sumX * sumY) / determinant;
    double intercept = (sumY - slope * sumX) / n;
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double residual = b[i] - intercept - slope * (t[i] - 20);
      squares += residual * residual;
    }
    double variance = squares / (n - 2);
    double uIntercept = Math.sqrt(variance * sumXx / determinant);
    double uSlope = Math.sqrt(variance * n / determinant);
    double r = -sumX / Math.sqrt(n * sumXx);
    return Combined.correlated(
            new double[] {uIntercept, beyond * uSlope}, new double[][] {{1, r}, {r, 1}})
        .u();
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value;
    }
    return sum / values.length;
  }

  private static double covarianceOfMeans(double[] one, double[] other) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += (one[i] - mean(one)) * (other[i] - mean(other));
    }
    return sum / (one.length * (one.length - 1.0));
  }

  static List<Check> rows() {
    return CheckFile.read("gum");
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
