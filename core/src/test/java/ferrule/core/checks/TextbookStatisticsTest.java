package ferrule.core.checks;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The textbook statistics of the test tree against published and other outside values, before they
 * serve as oracles. Medians and deviations are Ferrule's own.
 */
class TextbookStatisticsTest {

  private static final double STEADY = 1e9;
  private static final int SERIES = 60_000;

  private static final Computations TEXTBOOK =
      new Computations(
          c -> {
            c.number("spc.nist.ewma.*", r -> nist(r)[(int) r.numberAfter("spc.nist.ewma.") - 1]);
            c.number("spc.nist.ewma.ucl", r -> r.input("EWMA0") + nistHalfWidth(r));
            c.number("spc.nist.ewma.lcl", r -> r.input("EWMA0") - nistHalfWidth(r));
            c.number(
                "spc.nist.ewma.sig",
                r ->
                    Arrays.stream(nist(r))
                        .filter(z -> Math.abs(z - r.input("EWMA0")) > nistHalfWidth(r))
                        .count());
            c.number("spc.lc.*", r -> lucasCrosier(r.input("S0"))[(int) r.input("i") - 1]);
            c.number("spc.lc.plain.sig", r -> TextbookStatistics.firstAbove(lucasCrosier(0), 5));
            c.number("spc.lc.fir.sig", r -> TextbookStatistics.firstAbove(lucasCrosier(2.5), 5));
            c.number("spc.arl.*", TextbookStatisticsTest::runLength);
            c.number("spc.mont.ewma.1", r -> montgomeryEwma(r)[0]);
            c.number("spc.mont.ewma.29", r -> montgomeryEwma(r)[28]);
            c.number(
                "spc.mont.ewma.ucl",
                r -> 10 + TextbookStatistics.ewmaHalfWidth(1, 0.1, 2.7, STEADY));
            c.number("spc.mont.cusum.29", r -> montgomeryCusum(r)[28]);
            c.number(
                "spc.mont.cusum.n", r -> 29 - TextbookStatistics.lastZero(montgomeryCusum(r), 29));
            c.number("spc.grubbs2.*", r -> critical(r, 0.05, true));
            c.number("spc.grubbs2.01.*", r -> critical(r, 0.01, true));
            c.number("spc.grubbs1.*", r -> critical(r, 0.05, false));
            c.number("spc.grubbs.nist.G", r -> TextbookStatistics.grubbs(r.list("x")));
            c.number("spc.grubbs.nist.crit", r -> critical(r, 0.05, false));
            c.number("spc.mad.nist", r -> TextbookStatistics.modifiedZ(r.list("x"), 245.57));
            c.number("spc.mad.z", r -> TextbookStatistics.modifiedZ(r.list("x"), 0.62));
            c.number("spc.mad.grubbs", r -> TextbookStatistics.grubbs(r.list("x")));
            c.number("spc.mad.med", r -> OrderStats.median(r.list("x")));
            c.number("spc.mad.mad", r -> OrderStats.spread(r.list("x")) / OrderStats.SD_OVER_MAD);
            c.number("cp.known.*", r -> criticalCut(r, 1));
            c.number("cp.t.*", r -> criticalCut(r, Double.NaN));
            c.number("drift.cusum.first", r -> TextbookStatistics.firstAbove(driftCusum(r), 5));
            c.number(
                "drift.cusum.last0",
                r ->
                    TextbookStatistics.lastZero(
                        driftCusum(r), TextbookStatistics.firstAbove(driftCusum(r), 5)));
            c.number("drift.cusum.24", r -> driftCusum(r)[23]);
            c.number("drift.ewma.first", TextbookStatisticsTest::driftEwmaSignal);
            c.number("drift.cp.k", r -> driftCut(r).after());
            c.number("drift.cp.T", r -> driftCut(r).t());
            c.number(
                "drift.slope",
                r -> TextbookStatistics.slope(Arrays.copyOfRange(r.list("x"), 12, 24)));
          });

  private static final Computations ALIKE =
      new Computations(
          c -> {
            c.number(
                "dup.0.*",
                r ->
                    TextbookStatistics.printedAlike(
                        r.input("sigma"),
                        r.input("q"),
                        Integer.parseInt(r.id().substring(r.id().lastIndexOf('.') + 1))));
            c.number(
                "dup.run3.96",
                r ->
                    (r.input("n") - 2)
                        * TextbookStatistics.printedAlike(r.input("sigma"), r.input("q"), 3));
          });

  private static double[] nist(Check row) {
    return TextbookStatistics.ewma(row.list("x"), row.input("EWMA0"), row.input("lambda"));
  }

  private static double nistHalfWidth(Check row) {
    return TextbookStatistics.ewmaHalfWidth(row.input("s"), row.input("lambda"), 3, STEADY);
  }

  private static double[] lucasCrosier(double start) {
    double[] x = {0.8, 1.9, 1.4, 2.0, 1.1, 0.7, 2.6};
    return TextbookStatistics.cusum(x, 0, 1, 0.5, start);
  }

  /** Mean number of values until either of two cumulative sums passes its limit. */
  private static double runLength(Check row) {
    double limit = row.input("h");
    double shift = Double.parseDouble(row.inputs().replaceAll(".*shift | sigma.*", ""));
    SplittableRandom random =
        new SplittableRandom(Double.hashCode(limit) + 31L * Double.hashCode(shift));
    long values = 0;
    for (int run = 0; run < SERIES; run++) {
      double[] sums = {0, 0};
      do {
        double x = shift + random.nextGaussian();
        sums[0] = TextbookStatistics.cusum(new double[] {x}, 0, 1, 0.5, sums[0])[0];
        sums[1] = TextbookStatistics.cusum(new double[] {-x}, 0, 1, 0.5, sums[1])[0];
        values++;
      } while (sums[0] <= limit && sums[1] <= limit);
    }
    return values / (double) SERIES;
  }

  private static double[] montgomeryEwma(Check row) {
    return TextbookStatistics.ewma(row.list("x"), 10, 0.1);
  }

  private static double[] montgomeryCusum(Check row) {
    return TextbookStatistics.cusum(row.list("x"), 10, 1, 0.5, 0);
  }

  private static double critical(Check row, double alpha, boolean twoSided) {
    return TextbookStatistics.grubbsCritical((int) row.input("n"), alpha, twoSided);
  }

  private static double criticalCut(Check row, double sigma) {
    int n = (int) row.input("n");
    SplittableRandom random = new SplittableRandom(n);
    double[] largest = new double[SERIES];
    double[] x = new double[n];
    for (int s = 0; s < SERIES; s++) {
      Arrays.setAll(x, i -> random.nextGaussian());
      largest[s] = Math.abs(TextbookStatistics.largestCut(x, sigma, 1).t());
    }
    Arrays.sort(largest);
    return largest[(int) (SERIES * (1 - row.input("chance")))];
  }

  private static double[] driftCusum(Check row) {
    return TextbookStatistics.cusum(row.list("x"), row.input("mu0"), row.input("sigma"), 0.5, 0);
  }

  private static int driftEwmaSignal(Check row) {
    double[] z = TextbookStatistics.ewma(row.list("x"), row.input("mu0"), 0.2);
    for (int i = 0; i < z.length; i++) {
      double half = TextbookStatistics.ewmaHalfWidth(row.input("sigma"), 0.2, 2.962, i + 1);
      if (Math.abs(z[i] - row.input("mu0")) > half) {
        return i + 1;
      }
    }
    return 0;
  }

  private static TextbookStatistics.Cut driftCut(Check row) {
    return TextbookStatistics.largestCut(row.list("x"), row.input("sigma"), 1);
  }

  static List<Check> statistics() {
    return CheckFile.read("textbook-statistics");
  }

  static List<Check> alike() {
    return CheckFile.read("repeats-of-many");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("statistics")
  void theTextbookStatisticAgreesWithTheOutsideValue(Check row) {
    TEXTBOOK.assertAgrees(row);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("alike")
  void theChanceOfManyAlikeAgreesWithTheOutsideValue(Check row) {
    ALIKE.assertAgrees(row);
  }

  @Test
  void everyComputationHasARow() {
    TEXTBOOK.assertEveryComputationHasARow(statistics());
    ALIKE.assertEveryComputationHasARow(alike());
  }

  /** No row may be called published whose source says that it was computed or remembered. */
  @Test
  void onlyWhatWasReadIsCalledPublished() {
    Predicate<Check> own = r -> r.source().contains("own ") || r.source().contains("memory");
    assertThat(Stream.concat(statistics().stream(), alike().stream()))
        .filteredOn(r -> r.confidence().equals("published"))
        .isNotEmpty()
        .noneMatch(own);
  }
}
