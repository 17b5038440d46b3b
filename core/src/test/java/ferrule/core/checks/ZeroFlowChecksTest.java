package ferrule.core.checks;

import ferrule.core.fixture.JobFixture;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.optics.Decibels;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Judge;
import ferrule.core.uncertainty.Combined;
import ferrule.core.zero.Method;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Zeros and readings as levels that pass one connection after another. */
class ZeroFlowChecksTest {

  private static final LevelDbm LAUNCH = new LevelDbm(-20);

  /** The connections of the row's inputs; the third cord is X, the link's ends are A and B. */
  private record Line(double link, double la, double br, double lr, double lx, double xr) {
    static Line of(Check row) {
      return new Line(
          row.input("Lk"),
          row.input("c(L,A)"),
          row.input("c(B,R)"),
          row.input("c(L,R)"),
          row.input("c(L,X)"),
          row.input("c(X,R)"));
    }

    LevelDbm stored(Method method) {
      return switch (method) {
        case ONE_CORD -> LAUNCH;
        case TWO_CORD -> through(lr);
        case THREE_CORD -> through(lx, xr);
      };
    }

    LevelDbm measured() {
      return through(la, link, br);
    }

    double reading(Method method) {
      return stored(method).lossTo(measured()).value();
    }
  }

  private static LevelDbm through(double... losses) {
    LevelDbm level = LAUNCH;
    for (double loss : losses) {
      level = level.after(new LossDb(loss));
    }
    return level;
  }

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("ref.one", r -> Line.of(r).reading(Method.ONE_CORD));
            c.number("ref.two", r -> Line.of(r).reading(Method.TWO_CORD));
            c.number("ref.three", r -> Line.of(r).reading(Method.THREE_CORD));
            c.number("ref.pref.one", r -> LAUNCH.value());
            c.number("ref.pref.two", r -> through(r.input("c(L,R)")).value());
            c.number("ref.pref.three", r -> through(r.input("c(L,X)"), r.input("c(X,R)")).value());
            c.number("ref.pmeas", r -> Line.of(r).measured().value());
            c.number("ref.conv.1to2", ZeroFlowChecksTest::oneLessTwo);
            c.number("ref.faces.ref.one", r -> Method.ONE_CORD.cordFaces(2));
            c.number("ref.faces.ref.two", r -> Method.TWO_CORD.cordFaces(2));
            c.number("ref.faces.ref.three", r -> Method.THREE_CORD.cordFaces(2));
            // While measuring, two cords are in use whatever the method.
            c.number("ref.faces.cords.meas", r -> 2 * Method.ONE_CORD.cordFaces(2));
            // One-cord: the receive cord comes on top, after the zero.
            c.number("ref.faces.total.one", r -> 2 * Method.ONE_CORD.cordFaces(2));
            c.number("ref.faces.total.two", r -> Method.TWO_CORD.cordFaces(2));
            c.number("ref.faces.total.three", r -> Method.THREE_CORD.cordFaces(2));
            c.number("ref.faces.link", r -> facesOfDuplexLink());
            c.number("ref.dirt.before.one", r -> bias(0, 0, dirt(r), 0));
            c.number("ref.wear.before.one", r -> bias(0, 0, 0, dirt(r)));
            c.number("ref.wear.before.two", r -> bias(0, dirt(r), 0, dirt(r)));
            c.number("ref.dirt.cleaned.two", r -> bias(0, dirt(r), 0, 0));
            c.number("ref.dirt.cleaned.one", r -> bias(dirt(r), 0, 0, 0));
            c.number("ref.dirty.after", r -> bias(0, 0, 0, dirt(r)));
            c.number(
                "ref.dir.avg",
                r ->
                    Decibels.mean(new LossDb(r.input("A_ab")), new LossDb(r.input("A_ba")))
                        .value());
            c.number(
                "ref.dir.half",
                r ->
                    new LossDb(r.input("A_ab"))
                        .minus(new LossDb(r.input("A_ba")))
                        .times(0.5)
                        .value());
            c.number("ref.dir.u.single", r -> ofEqual(2, r.input("sigma_c")));
            c.number("ref.dir.u.avg", r -> ofEqual(4, r.input("sigma_c") / 2));
            c.number("ref.corr.two", ZeroFlowChecksTest::correlationOfTwoLinks);
          });

  private static double dirt(Check row) {
    return row.number();
  }

  /**
   * What a disturbance adds to a reading, in an otherwise perfect line.
   *
   * @param meterAtZero loss before the meter when a one-cord zero is set, dB
   * @param pairAtZero loss of the cord pair when a two-cord zero is set, dB
   * @param both loss seen by the meter at the zero and by the link afterwards, dB
   * @param atReading loss at the link alone, when reading, dB
   */
  private static double bias(double meterAtZero, double pairAtZero, double both, double atReading) {
    return through(meterAtZero, pairAtZero, both).lossTo(through(both, atReading)).value();
  }

  private static double oneLessTwo(Check row) {
    double pair = row.input("c(L,R)");
    LevelDbm measured = through(0.12, 0.30, 0.10);
    return LAUNCH.lossTo(measured).minus(through(pair).lossTo(measured)).value();
  }

  private static double ofEqual(int count, double each) {
    double[] products = new double[count];
    double[] degrees = new double[count];
    Arrays.fill(products, each);
    Arrays.fill(degrees, Double.POSITIVE_INFINITY);
    return Combined.independent(products, degrees).u();
  }

  /** Inputs: two end connections of each of two links, and the one cord pair of their zero. */
  private static double correlationOfTwoLinks(Check row) {
    double end = row.input("sigma_ct");
    double pair = row.input("sigma_cc");
    double[] first = {end, end, 0, 0, -pair};
    double[] second = {0, 0, end, end, -pair};
    double[][] identity = new double[5][5];
    for (int i = 0; i < 5; i++) {
      identity[i][i] = 1;
    }
    double u = Combined.correlated(first, identity).u();
    return Combined.covariance(first, second, identity) / (u * u);
  }

  /** As many faces as the action against unseen faces counts minutes at one face a look. */
  private static double facesOfDuplexLink() {
    var job = JobFixture.singleMode().faces(FaceDemand.ENDS).link("K001", 2, 150).job();
    return Judge.judge(job).doubts().stream()
            .filter(d -> d.kind() == DoubtKind.FACE_UNSEEN)
            .findFirst()
            .orElseThrow()
            .next()
            .minutes()
        / Handling.INSPECT_FACE;
  }

  static List<Check> rows() {
    return CheckFile.read("zero-signal-flow");
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
