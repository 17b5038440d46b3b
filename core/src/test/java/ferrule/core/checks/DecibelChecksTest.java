package ferrule.core.checks;

import static ferrule.core.optics.Decibels.PER_NEPER;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.uncertainty.Combined;
import ferrule.core.uncertainty.Law;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class DecibelChecksTest {

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number(
                "db.p2dbm.*",
                r ->
                    LevelDbm.ofMilliwatts(r.input("P") / (r.inputs().contains("uW") ? 1000 : 1))
                        .value());
            c.number("db.dbm2p.*", r -> new LevelDbm(r.input("L")).milliwatts() * 1000);
            c.number("db.loss.ref-meas", DecibelChecksTest::lossOfLevels);
            c.number("db.neg", DecibelChecksTest::lossOfLevels);
            c.number("db.loss.trans", r -> new LossDb(r.input("A")).transmittance());
            c.number(
                "db.loss.watts",
                r ->
                    LevelDbm.ofMilliwatts(r.input("P_ref") / 1000)
                        .lossTo(LevelDbm.ofMilliwatts(r.input("P_meas") / 1000))
                        .value());
            c.number("db.avg.db", r -> meanInDb(r.numbers()));
            c.number("db.avg.lin", r -> meanOfPowers(r.numbers()));
            c.number("db.avg.lin.approx", r -> meanInDb(r.numbers()) - jensen(r.numbers()));
            c.number("db.avg.bidir.db", DecibelChecksTest::bidirectionalMean);
            c.number("db.avg.bidir.lin", r -> meanOfPowers(r.numbers()));
            c.number("db.avg.small", r -> bidirectionalMean(r) - meanOfPowers(r.numbers()));
            c.number("db.urel.5pct", r -> Decibels.ofRelativeUncertainty(r.input("u_rel")));
            c.number("db.rel.*", r -> LevelDbm.ofMilliwatts(1 + r.number() / 100).value());
            c.number("db.res.one", r -> Law.RECTANGULAR.standardUncertainty(r.input("q") / 2));
            c.number("db.res.diff", DecibelChecksTest::twoDisplaySteps);
            c.number(
                "db.sum.reflect", r -> Decibels.powerSum(r.numbers().get(0), r.numbers().get(1)));
            c.number("db.alpha.nep", r -> Decibels.toPerKm(r.number()));
          });

  private static double lossOfLevels(Check row) {
    return new LevelDbm(row.input("L_ref")).lossTo(new LevelDbm(row.input("L_meas"))).value();
  }

  private static double meanInDb(List<Double> losses) {
    LossDb sum = LossDb.ZERO;
    for (double loss : losses) {
      sum = sum.plus(new LossDb(loss));
    }
    return sum.times(1.0 / losses.size()).value();
  }

  private static double meanOfPowers(List<Double> losses) {
    double sum = 0;
    for (double loss : losses) {
      sum += new LossDb(loss).transmittance();
    }
    return LossDb.ofTransmittance(sum / losses.size()).value();
  }

  /** What averaging powers takes off the mean in dB, to second order: (ln 10 / 20) s^2. */
  private static double jensen(List<Double> losses) {
    double mean = meanInDb(losses);
    double squares = 0;
    for (double loss : losses) {
      squares += (loss - mean) * (loss - mean);
    }
    return squares / losses.size() / (2 * PER_NEPER);
  }

  private static double bidirectionalMean(Check row) {
    return Decibels.mean(new LossDb(row.numbers().get(0)), new LossDb(row.numbers().get(1)))
        .value();
  }

  private static double twoDisplaySteps(Check row) {
    double one = Law.RECTANGULAR.standardUncertainty(row.input("q") / 2);
    double infinite = Double.POSITIVE_INFINITY;
    return Combined.independent(new double[] {one, one}, new double[] {infinite, infinite}).u();
  }

  static List<Check> rows() {
    return CheckFile.read("decibels");
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
