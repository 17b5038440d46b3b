package ferrule.core.checks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.Mated;
import ferrule.core.isolation.Contrast;
import ferrule.core.isolation.Estimate;
import ferrule.core.isolation.Isolation;
import ferrule.core.isolation.PathReading;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Cord isolation against values computed apart from core; none of them is published. Every reading
 * is given the standard deviation 0.02 dB, so that all weigh the same, as in the outside
 * computation.
 */
class CordIsolationChecksTest {

  private static final double SD = 0.02;

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("cord.rank33", r -> table(r).rank());
            for (int i = 1; i <= 3; i++) {
              String number = String.valueOf(i);
              c.number("cord.a" + number, r -> launchEnd(r, number));
              c.number("cord.b" + number, r -> overMean(table(r), "B" + number + "/1"));
              c.number("cord.tri." + number, r -> loss(triangle(r), "T" + number + "/1").db());
            }
            c.number("cord.s", r -> table(r).spread().readingDb());
            c.number("cord.contrast", r -> contrast(table(r), "A3/2").difference().db());
            c.number("cord.contrast.u", r -> contrast(table(r), "A3/2").difference().sdDb());
            c.number("cord.contrast.t", r -> contrast(table(r), "A3/2").t());
            c.number("cord.chi2", r -> table(r).fit().orElseThrow().chiSquare());
            c.number("cord.a3.min0", CordIsolationChecksTest::thirdWithLeastReceiveEndZero);
            c.number("cord.tri.u", r -> loss(triangle(1, 2, 3), "T1/1").sdDb() / SD);
            c.number("cord.four.u", r -> loss(combined(0.1, 0.4, 0.3, 0.1), "X/1").sdDb() / SD);
            c.number("cord.six.uL", r -> six("L/2").sdDb() / sixSpread());
            c.number("cord.six.uX", r -> six("X/1").sdDb() / sixSpread());
            c.number("cord.six.s", r -> combined(losses(r)).spread().readingDb());
            for (String set : List.of("four", "six")) {
              c.number("cord." + set + ".L", r -> loss(combined(losses(r)), "L/2").db());
              c.number("cord." + set + ".R", r -> loss(combined(losses(r)), "R/1").db());
              c.number("cord." + set + ".X1", r -> loss(combined(losses(r)), "X/1").db());
              c.number("cord." + set + ".X2", r -> loss(combined(losses(r)), "X/2").db());
            }
            c.number("cord.rank.*", CordIsolationChecksTest::rank);
          });

  private static PathReading reading(String path, double loss) {
    return Mated.reading(path, loss, OptionalDouble.of(SD));
  }

  /** Launch ends in the rows, receive ends in the columns. */
  private static Isolation table(Check row) {
    String[] lines = row.inputs().substring(row.inputs().indexOf('=') + 1).split("\\|", -1);
    List<PathReading> readings = new ArrayList<>();
    for (int i = 0; i < lines.length; i++) {
      String[] cells = lines[i].replace("dB", "").strip().split(" ", -1);
      for (int j = 0; j < cells.length; j++) {
        readings.add(
            reading("A" + (i + 1) + "/2+B" + (j + 1) + "/1", Double.parseDouble(cells[j])));
      }
    }
    return Mated.isolated(readings);
  }

  private static Contrast contrast(Isolation isolation, String end) {
    return Mated.finding(isolation, end).contrast().orElseThrow();
  }

  /** An end less the mean of its group, itself included. */
  private static double overMean(Isolation isolation, String end) {
    Contrast contrast = contrast(isolation, end);
    int fellows = contrast.fellows().size();
    return contrast.difference().db() * fellows / (fellows + 1);
  }

  /** With the receive ends' mean at 0, what a launch end loses is what it loses beyond them. */
  private static double launchEnd(Check row, String number) {
    Isolation isolation = table(row);
    assertThat(isolation.sums()).hasSize(1);
    return isolation.sums().get(0).value().db() + overMean(isolation, "A" + number + "/2");
  }

  private static double thirdWithLeastReceiveEndZero(Check row) {
    double least =
        Arrays.stream(new String[] {"B1/1", "B2/1", "B3/1"})
            .mapToDouble(end -> overMean(table(row), end))
            .min()
            .orElseThrow();
    return launchEnd(row, "3") + least;
  }

  private static Isolation triangle(Check row) {
    return triangle(row.input("y12"), row.input("y13"), row.input("y23"));
  }

  private static Isolation triangle(double first, double second, double third) {
    return Mated.isolated(
        List.of(
            reading("T1/1+T2/1", first),
            reading("T1/1+T3/1", second),
            reading("T2/1+T3/1", third)));
  }

  /** What follows an equals sign or a name in the row, in order. */
  private static double[] losses(Check row) {
    List<Double> losses = new ArrayList<>();
    for (String part : row.inputs().split(";", -1)) {
      String[] words = part.strip().split("[ =]", -1);
      losses.add(Double.parseDouble(words[words.length - 1]));
    }
    return losses.stream().mapToDouble(loss -> loss).toArray();
  }

  /** L-R, L-X-R, L-X1, L-X2, and as given R-X1, R-X2. */
  private static Isolation combined(double... losses) {
    String[] paths = {"L/2+R/1", "L/2+X/1;X/2+R/1", "L/2+X/1", "L/2+X/2", "R/1+X/1", "R/1+X/2"};
    List<PathReading> readings = new ArrayList<>();
    for (int i = 0; i < losses.length; i++) {
      readings.add(reading(paths[i], losses[i]));
    }
    return Mated.isolated(readings);
  }

  private static Isolation six() {
    return combined(0.10, 0.44, 0.35, 0.10, 0.34, 0.11);
  }

  private static Estimate six(String end) {
    return loss(six(), end);
  }

  private static double sixSpread() {
    return six().spread().readingDb();
  }

  private static Estimate loss(Isolation isolation, String end) {
    return Mated.finding(isolation, end).loss().orElseThrow();
  }

  /** "LR,LX1X2R": ends in the order of the light, two and two mated. */
  private static double rank(Check row) {
    List<PathReading> readings = new ArrayList<>();
    for (String set : row.inputs().split(",", -1)) {
      String ends =
          set.replace("L", "L/2 ")
              .replace("R", "R/1 ")
              .replace("X1", "X/1 ")
              .replace("X2", "X/2 ")
              .strip();
      String[] each = ends.split(" ", -1);
      List<String> matings = new ArrayList<>();
      for (int i = 0; i < each.length; i += 2) {
        matings.add(each[i] + "+" + each[i + 1]);
      }
      readings.add(reading(String.join(";", matings), 0.1));
    }
    return Mated.isolated(readings).rank();
  }

  static List<Check> rows() {
    return CheckFile.read("cord-isolation");
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

  /** Tables of Student's t and of chi-square, common to all textbooks: 4 degrees, 5 %. */
  @Test
  void criticalValuesAreThoseOfTheTables() {
    Check row = rows().stream().filter(r -> r.id().equals("cord.chi2")).findFirst().orElseThrow();
    assertThat(table(row).fit().orElseThrow().critical()).isCloseTo(9.488, within(5e-4));
    Contrast atTheCriticalValue = new Contrast(List.of(), new Estimate(2.776, 1), 4);
    assertThat(atTheCriticalValue.probability()).isCloseTo(0.05, within(5e-5));
  }

  @Test
  void theThirdLaunchEndIsBadThoughOnlyDifferencesCanBeTold() {
    Check row = rows().stream().filter(r -> r.id().equals("cord.chi2")).findFirst().orElseThrow();
    Isolation isolation = table(row);
    assertThat(isolation.fitHolds()).isTrue();
    assertThat(contrast(isolation, "A3/2").standsOut()).isTrue();
    assertThat(isolation.ends())
        .allSatisfy(
            end ->
                assertThat(end.state().word())
                    .isEqualTo(end.end().equals(Mated.end("A3/2")) ? "bad" : "cannot be told"));
  }
}
