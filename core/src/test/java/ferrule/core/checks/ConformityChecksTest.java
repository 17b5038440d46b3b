package ferrule.core.checks;

import static ferrule.core.uncertainty.Decision.ACCEPT;
import static ferrule.core.uncertainty.Decision.REJECT;

import ferrule.core.uncertainty.Combined;
import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.DecisionRule;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.statistics.distribution.ContinuousDistribution;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ConformityChecksTest {

  private static final ContinuousDistribution BEARINGS = GammaDistribution.of(4, 0.25);
  private static final double BEARING_LIMIT = 2;
  private static final double BEARING_U = 0.25;

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number(
                "cf.zener", r -> Conformity.belowUpper(r.input("y"), r.input("TU"), r.input("u")));
            c.number(
                "cf.container",
                r -> Conformity.aboveLower(r.input("y"), r.input("TL"), r.input("u")));
            c.number(
                "cf.oil",
                r -> Conformity.between(r.input("y"), r.input("TL"), r.input("TU"), r.input("u")));
            c.number("cf.z.*", r -> Conformity.coverage(r.input("pc")));
            c.number("cf.speed", ConformityChecksTest::speedLimit);
            c.number(
                "cf.nandrolone",
                r -> new Combined(r.input("s"), r.input("nu")).expanded(1 - 2 * 0.05));
            c.number("cf.res.pc", r -> Conformity.between(1500, 1499.8, 1500.2, 0.12));
            c.number("cf.res.RC", r -> resistors(true));
            c.number("cf.res.RP", r -> resistors(false));
            c.number("cf.bear.RC0", r -> bearings(BEARING_LIMIT, true));
            c.number("cf.bear.RP0", r -> bearings(BEARING_LIMIT, false));
            c.number("cf.bear.RC65", r -> bearings(r.input("A"), true));
            c.number("cf.bear.RP65", r -> bearings(r.input("A"), false));
            c.number("cf.bear.cond", ConformityChecksTest::goodAmongRejected);
            c.number("cf.bear.r", r -> guardForRisk(0.001));
            c.number("cf.cm2.RC", r -> capability(2, true));
            c.number("cf.cm2.RP", r -> capability(2, false));
            c.number("cf.cm10.RC", r -> capability(10, true));
            c.number("cf.cm10.RP", r -> capability(10, false));
            c.number("cf.rp19.*", r -> 100 * jointFalseAccept(r.numberAfter("cf.rp19.")));
            c.number("cf.deaver.1", r -> twoSigma(r.input("sigma_test"), true));
            c.number("cf.deaver.2", r -> twoSigma(r.input("sigma_test"), false));
            c.number("cf.ilac.*", r -> falseAcceptAt(1.5, 0.1, 2 * 0.1 * r.input("r")));
            c.number(
                "cf.ilac.0", r -> falseAcceptAt(1.5, 0.1, 2 * 0.1 * DecisionRule.SIMPLE.guard()));
            c.number(
                "cf.ilac.1", r -> falseAcceptAt(1.5, 0.1, 2 * 0.1 * DecisionRule.GUARDED.guard()));
            c.number("cf.ilac.guard.83", r -> Conformity.coverage(0.95) / 2);
            c.number("cf.pfa.*", r -> falseAcceptAt(1.5, 0.05, 0.05 * r.input("z")));
            c.number("cf.link.pc", r -> Conformity.belowUpper(1.42, 1.5, 0.05));
            c.number("cf.link.U", r -> 1.5 - DecisionRule.GUARDED.guard() * r.input("U"));
            c.text("cf.nonbin.*", r -> statement(r.number()));
            c.number("cf.pop.RC.0.05.0", r -> links(0.05, 0, true));
            c.number("cf.pop.RP.0.05.0", r -> links(0.05, 0, false));
            c.number("cf.pop.RC.0.05.U", r -> links(0.05, DecisionRule.GUARDED.guard(), true));
            c.number("cf.pop.RP.0.05.U", r -> links(0.05, DecisionRule.GUARDED.guard(), false));
            c.number("cf.pop.RC.0.1.0", r -> links(0.1, 0, true));
            c.number("cf.pop.RP.0.1.0", r -> links(0.1, 0, false));
            c.number("cf.pop.RC.0.1.U", r -> links(0.1, DecisionRule.GUARDED.guard(), true));
            c.number("cf.pop.RP.0.1.U", r -> links(0.1, DecisionRule.GUARDED.guard(), false));
            c.number("cf.post.pc", ConformityChecksTest::withPrior);
            c.number(
                "cf.post.pc.noprior",
                r -> Conformity.belowUpper(r.numbers().get(1), r.numbers().get(0), r.input("u")));
            c.number("cf.multi.2s", r -> anyFalse(96, 2));
            c.number("cf.multi.3s", r -> anyFalse(96, 3));
          });

  /** The speed whose excess over the limit is certain to 99.9 % when u is 2 % of the reading. */
  private static double speedLimit(Check row) {
    return row.input("v0") / (1 - 0.02 * Conformity.coverage(0.999));
  }

  /** Chance that what reads {@code guard} inside the limit lies above it all the same. */
  private static double falseAcceptAt(double limit, double u, double guard) {
    return Conformity.aboveLower(limit - guard, limit, u);
  }

  private static double resistors(boolean consumer) {
    return risk(
        NormalDistribution.of(1500, 0.12),
        1499.8,
        1500.2,
        truth -> Conformity.between(truth, 1499.82, 1500.18, 0.04),
        consumer);
  }

  private static double bearings(double acceptance, boolean consumer) {
    return risk(
        BEARINGS,
        0,
        BEARING_LIMIT,
        truth -> Conformity.belowUpper(truth, acceptance, BEARING_U),
        consumer);
  }

  private static double goodAmongRejected(Check row) {
    double bad = BEARINGS.survivalProbability(BEARING_LIMIT);
    double producer = bearings(row.input("A"), false);
    return producer / (producer + bad - bearings(row.input("A"), true));
  }

  private static double guardForRisk(double wanted) {
    double low = 0;
    double high = 2;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (bearings(BEARING_LIMIT - middle * 2 * BEARING_U, true) > wanted) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Centred process of spread T/6 against two limits T apart; simple acceptance. */
  private static double capability(double capability, boolean consumer) {
    return risk(
        NormalDistribution.of(0, 1.0 / 6),
        -0.5,
        0.5,
        truth -> Conformity.between(truth, -0.5, 0.5, 1 / (4 * capability)),
        consumer);
  }

  private static double jointFalseAccept(double inTolerance) {
    double process = 1 / Conformity.coverage((1 + inTolerance) / 2);
    return risk(
        NormalDistribution.of(0, process),
        -1,
        1,
        truth -> Conformity.between(truth, -1, 1, process / 4),
        true);
  }

  private static double twoSigma(double test, boolean consumer) {
    return risk(
        NormalDistribution.of(0, 1),
        -2,
        2,
        truth -> Conformity.between(truth, -2, 2, test),
        consumer);
  }

  private static double links(double u, double guard, boolean consumer) {
    double mean = 0.9;
    double variance = 0.2 * 0.2;
    return risk(
        GammaDistribution.of(mean * mean / variance, variance / mean),
        0,
        1.5,
        truth -> Conformity.belowUpper(truth, 1.5 - guard * 2 * u, u),
        consumer);
  }

  /**
   * Global risk of a population: bad and accepted (the consumer's), or good and rejected. The
   * chance of accepting is core's; the integral over the population is Simpson's rule here.
   */
  private static double risk(
      ContinuousDistribution population,
      double lower,
      double upper,
      DoubleUnaryOperator accepted,
      boolean consumer) {
    if (!consumer) {
      return integral(lower, upper, x -> population.density(x) * (1 - accepted.applyAsDouble(x)));
    }
    double low = population.inverseCumulativeProbability(1e-13);
    double high = population.inverseSurvivalProbability(1e-13);
    DoubleUnaryOperator both = x -> population.density(x) * accepted.applyAsDouble(x);
    return integral(Math.min(low, lower), lower, both) + integral(upper, high, both);
  }

  private static double integral(double from, double to, DoubleUnaryOperator f) {
    int steps = 4000;
    double width = (to - from) / steps;
    double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
    for (int i = 1; i < steps; i++) {
      sum += (i % 2 == 1 ? 4 : 2) * f.applyAsDouble(from + i * width);
    }
    return sum * width / 3;
  }

  /** The four-way statement of ILAC-G8, 4.2.3, from core's two rules. */
  private static String statement(double reading) {
    var guarded = DecisionRule.GUARDED.decide(reading, 1.5, 0.1);
    var simple = DecisionRule.SIMPLE.decide(reading, 1.5, 0.1);
    if (guarded == ACCEPT) {
      return "pass";
    }
    if (guarded == REJECT) {
      return "fail";
    }
    return simple == ACCEPT ? "conditional pass" : "conditional fail";
  }

  /** Prior 0.9 with spread 0.2, reading 1.45 with u 0.1, combined by their weights. */
  private static double withPrior(Check row) {
    double prior = 1 / (0.2 * 0.2);
    double reading = 1 / (0.1 * 0.1);
    double mean = (0.9 * prior + 1.45 * reading) / (prior + reading);
    return Conformity.belowUpper(mean, row.number(), 1 / Math.sqrt(prior + reading));
  }

  private static double anyFalse(int readings, double spreadsInside) {
    return 1 - Math.pow(1 - falseAcceptAt(1.5, 0.1, 0.1 * spreadsInside), readings);
  }

  static List<Check> rows() {
    return CheckFile.read("conformity");
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
