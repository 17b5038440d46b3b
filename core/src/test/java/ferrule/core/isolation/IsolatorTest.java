package ferrule.core.isolation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.Mated;
import ferrule.core.isolation.NextMeasurement.Why;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is told, what is not, who is bad, and what comes next. All readings are invented. */
class IsolatorTest {

  private static final OptionalDouble SD = OptionalDouble.of(0.02);

  private static Isolation of(Object... pathsAndLosses) {
    List<PathReading> readings = new ArrayList<>();
    for (int i = 0; i < pathsAndLosses.length; i += 2) {
      readings.add(Mated.reading((String) pathsAndLosses[i], (double) pathsAndLosses[i + 1], SD));
    }
    return Mated.isolated(readings);
  }

  private static EndState state(Isolation isolation, String end) {
    return Mated.finding(isolation, end).state();
  }

  private static List<String> sums(Isolation isolation) {
    return isolation.sums().stream()
        .map(
            sum ->
                String.join(
                    " ",
                    sum.terms().stream().map(t -> (t.factor() > 0 ? "+" : "-") + t.end()).toList()))
        .toList();
  }

  @Test
  void fourReadingsTellFourEndsAndTheBadOne() {
    Isolation found =
        of("L/2+R/1", 0.10, "L/2+X/1;X/2+R/1", 0.44, "L/2+X/1", 0.35, "L/2+X/2", 0.10);
    assertThat(state(found, "X/1")).isEqualTo(EndState.BAD);
    assertThat(found.spread().basis()).isEqualTo(Spread.Basis.STATED);
    assertThat(found.fit()).isEmpty();
    assertThat(found.rank()).isEqualTo(4);
    assertThat(found.allInOrder()).isFalse();
  }

  @Test
  void aTurnedCordIsNoNewEquation() {
    Isolation once = of("L/2+R/1", 0.10, "L/2+X/1;X/2+R/1", 0.44);
    Isolation turned = of("L/2+R/1", 0.10, "L/2+X/1;X/2+R/1", 0.44, "L/2+X/2;X/1+R/1", 0.44);
    assertThat(once.rank()).isEqualTo(2);
    assertThat(turned.rank()).isEqualTo(2);
    assertThat(sums(turned)).containsExactly("+L/2 +R/1", "+X/1 +X/2");
    assertThat(turned.count(EndState.UNTOLD)).isEqualTo(4);
  }

  @Test
  void onePairTellsItsSumOnlyAndAsksForAFurtherCord() {
    Isolation found = of("L1/2+R1/1", 0.12);
    assertThat(found.count(EndState.UNTOLD)).isEqualTo(2);
    assertThat(sums(found)).containsExactly("+L1/2 +R1/1");
    assertThat(found.sums().get(0).value().db()).isCloseTo(0.12, within(1e-12));
    NextMeasurement next = found.next().orElseThrow();
    assertThat(next.why()).isEqualTo(Why.TELL);
    assertThat(next.furtherCord()).isTrue();
    assertThat(next.path()).hasToString("L1/2+N/1");
    // With that cord's end the three make a triangle.
    assertThat(next.then()).hasToString("[R1/1+N/1]");
  }

  @Test
  void readingsThatShareNoPairTellTheirSumOnly() {
    Isolation found = of("L/2+X/1;X/2+R/1", 0.30);
    assertThat(sums(found)).containsExactly("+L/2 +R/1 +X/1 +X/2");
    assertThat(found.groups()).isEmpty();
  }

  @Test
  void launchEndsThatOnlyMeetReceiveEndsShowDifferences() {
    Isolation found = of("L/2+X/1", 0.35, "L/2+X/2", 0.10, "R/1+X/1", 0.34, "R/1+X/2", 0.11);
    assertThat(found.rank()).isEqualTo(3);
    assertThat(found.groups()).hasToString("[[L/2, R/1], [X/1, X/2]]");
    assertThat(Mated.finding(found, "X/1").contrast().orElseThrow().difference().db())
        .isCloseTo(0.24, within(1e-12));
    NextMeasurement next = found.next().orElseThrow();
    assertThat(next.path()).hasToString("L/2+R/1");
    assertThat(next.tells()).hasSize(4);
    assertThat(next.newZero()).isFalse();
  }

  @Test
  void whatIsPromisedOfTheNextMeasurementComesTrue() {
    Object[] before = {"L/2+X/1", 0.35, "L/2+X/2", 0.10, "R/1+X/1", 0.33, "R/1+X/2", 0.10};
    NextMeasurement next = of(before).next().orElseThrow();
    Object[] after =
        Stream.concat(Stream.of(before), Stream.of(next.path().toString(), 0.10)).toArray();
    Isolation then = of(after);
    assertThat(then.ends())
        .filteredOn(end -> end.loss().isPresent())
        .extracting(EndFinding::end)
        .containsAll(next.tells());
    // The factor of the spread changes with the new residuals; the geometry is what was promised.
    double promised = next.sdThen().orElseThrow() / of(before).spread().factor();
    assertThat(
            Mated.finding(then, next.worst().orElseThrow().toString()).loss().orElseThrow().sdDb()
                / then.spread().factor())
        .isCloseTo(promised, within(1e-12));
  }

  /** Every candidate is tried the long way: appended, solved anew, and compared. */
  @Test
  void noOtherPathTellsMoreOrBetter() {
    Object[] before = {
      "L/2+R/1", 0.10, "L/2+X/1;X/2+R/1", 0.40, "L/2+X/1", 0.30, "L/2+Y/1", 0.11, "Y/1+R/1", 0.1
    };
    NextMeasurement next = of(before).next().orElseThrow();
    double chosen = worth(before, next.path());
    int tried = 0;
    List<EndId> ends = of(before).ends().stream().map(EndFinding::end).toList();
    for (EndId one : ends) {
      for (EndId other : ends) {
        if (!one.cord().equals(other.cord())) {
          tried++;
          assertThat(worth(before, MatedPath.of(one, other))).isLessThanOrEqualTo(chosen + 1e-9);
        }
      }
    }
    assertThat(tried).isGreaterThan(10);
  }

  /** Ends told, less the largest standard deviation of one for standard deviations as given. */
  private static double worth(Object[] before, MatedPath path) {
    Isolation then =
        of(Stream.concat(Stream.of(before), Stream.of(path.toString(), 0.1)).toArray());
    double worst =
        then.ends().stream()
            .flatMap(end -> end.loss().stream())
            .mapToDouble(loss -> loss.sdDb() / then.spread().factor())
            .max()
            .orElse(0);
    return then.ends().stream().filter(e -> e.loss().isPresent()).count() - worst;
  }

  @Test
  void nothingMoreIsNeededOnceEveryEndIsInOrder() {
    Isolation found = of("L/2+R/1", 0.08, "L/2+X/1", 0.07, "R/1+X/1", 0.07, "L/2+R/1", 0.09);
    assertThat(found.allInOrder()).isTrue();
    assertThat(found.next()).isEmpty();
  }

  @Test
  void anEndAtTheLimitIsReadAgainUntilItIsToldToADisplayStep() {
    List<PathReading> readings = new ArrayList<>();
    for (String path : List.of("L/2+R/1", "L/2+X/1", "R/1+X/1")) {
      readings.add(Mated.reading(path, path.contains("X") ? 0.15 : 0.10));
    }
    int asked = 0;
    Optional<NextMeasurement> next = Mated.isolated(readings).next();
    while (next.isPresent()) {
      assertThat(next.get().why()).isEqualTo(Why.DECIDE);
      assertThat(next.get().worst()).isPresent();
      assertThat(next.get().sdThen().orElseThrow()).isLessThan(next.get().sdNow().orElseThrow());
      // Honest scatter of 0.02 dB either way, so that the spread stays what it is.
      double scatter = asked % 2 == 0 ? 0.02 : -0.02;
      readings.add(
          Mated.reading(
              next.get().path().toString(),
              next.get().path().ends().stream().mapToDouble(IsolatorTest::atTheLimit).sum()
                  + scatter));
      asked++;
      assertThat(asked).isLessThan(60);
      next = Mated.isolated(readings).next();
    }
    assertThat(asked).isGreaterThan(1);
    assertThat(Mated.finding(Mated.isolated(readings), "X/1").loss().orElseThrow().sdDb())
        .isLessThan(0.0101);
  }

  private static double atTheLimit(EndId end) {
    return end.cord().equals("X") ? 0.10 : 0.05;
  }

  @Test
  void pairsThatExplainTheMisfitEquallyAreNamedTogether() {
    List<PathReading> readings = new ArrayList<>();
    String[] ends = {"A/1", "B/1", "C/1", "D/1"};
    for (int i = 0; i < ends.length; i++) {
      for (int j = i + 1; j < ends.length; j++) {
        double special = i == 1 && j == 2 ? 0.15 : 0;
        readings.add(Mated.reading(ends[i] + "+" + ends[j], 0.08 + special, SD));
        readings.add(Mated.reading(ends[i] + "+" + ends[j], 0.09 + special, SD));
      }
    }
    Isolation found = Mated.isolated(readings);
    assertThat(found.fitHolds()).isFalse();
    // A loss of B+C's own differs from one of A+D's by (B + C - A - D)/2 in every reading.
    assertThat(found.specialPairs())
        .extracting(pair -> pair.pair().toString())
        .containsExactly("A/1+D/1", "B/1+C/1");
    assertThat(found.specialPairs().get(0).extra().db()).isGreaterThan(0.1);
    assertThat(found.next().orElseThrow().why()).isEqualTo(Why.REPEAT);
  }

  @Test
  void aSpecialPairAmongFiveCordsIsNamedAlone() {
    List<PathReading> readings = new ArrayList<>();
    String[] ends = {"A/1", "B/1", "C/1", "D/1", "E/1"};
    for (int i = 0; i < ends.length; i++) {
      for (int j = i + 1; j < ends.length; j++) {
        readings.add(
            Mated.reading(
                ends[i] + "+" + ends[j], i == 1 && j == 2 ? 0.25 : 0.08, OptionalDouble.of(0.02)));
      }
    }
    Isolation found = Mated.isolated(readings);
    assertThat(found.specialPairs()).hasSize(1);
    assertThat(found.specialPairs().get(0).pair()).hasToString("B/1+C/1");
    assertThat(found.specialPairs().get(0).extra().db()).isCloseTo(0.17, within(1e-9));
    assertThat(found.next().orElseThrow().path()).hasToString("B/1+C/1");
  }

  @Test
  void inATwoByTwoTableNoPairIsNamedBeforeAnother() {
    // The one residual is y11 - y12 - y21 + y22: each of the four explains it as well.
    Isolation found = of("L/2+X/1", 0.30, "L/2+X/2", 0.10, "R/1+X/1", 0.10, "R/1+X/2", 0.10);
    assertThat(found.fit().orElseThrow().degrees()).isEqualTo(1);
    // (0.2)^2 / (2 x 0.02)^2
    assertThat(found.fit().orElseThrow().chiSquare()).isCloseTo(25, within(1e-9));
    assertThat(found.specialPairs()).hasSize(4);
  }

  @Test
  void readingsThatAgreeByChanceDoNotMakeEndsCertain() {
    Isolation found = of("L/2+R/1", 0.08, "L/2+X/1", 0.07, "R/1+X/1", 0.07, "L/2+R/1", 0.08);
    assertThat(found.spread().readingDb()).isCloseTo(0.01 / Math.sqrt(12), within(1e-12));
  }

  @Test
  void anUnstatedSpreadIsAssumedPerMatingAndSaysSo() {
    Isolation found =
        Mated.isolated(
            List.of(
                Mated.reading("L/2+R/1", 0.10),
                Mated.reading("L/2+X/1", 0.10, OptionalDouble.of(0.01)),
                Mated.reading("R/1+X/1", 0.10)));
    assertThat(found.spread().basis()).isEqualTo(Spread.Basis.ASSUMED);
    assertThat(Mated.reading("L/2+X/1;X/2+R/1", 0.1).sd())
        .isCloseTo(0.02 * Math.sqrt(2), within(1e-15));
    // (s12^2 + s13^2 + s23^2)/4 for the triangle x1 = (y12 + y13 - y23)/2.
    assertThat(Mated.finding(found, "L/2").loss().orElseThrow().sdDb())
        .isCloseTo(Math.sqrt(0.02 * 0.02 * 2 + 0.01 * 0.01) / 2, within(1e-12));
  }

  @Test
  void wavelengthsAreSolvedApartAndTheirLimitFollowsTheFibre() {
    List<PathReading> readings = new ArrayList<>();
    for (int nm : new int[] {1300, 850, 1550}) {
      readings.add(
          new PathReading(
              Mated.path("L/2+R/1"),
              new LossDb(nm / 10_000.0),
              Optional.of(new Wavelength(nm)),
              SD,
              Optional.empty()));
    }
    readings.add(
        new PathReading(
            Mated.path("L/2+R/1"), new LossDb(0.1), Optional.empty(), SD, Optional.empty()));
    List<Isolation> found = Isolator.isolate(readings, Mated.RULEBOOK, Optional.empty());
    assertThat(found)
        .extracting(i -> i.wavelength().map(Wavelength::nm).orElse(0))
        .containsExactly(850, 1300, 1550, 0);
    // Two reference-grade ends: 0.10 dB multimode, 0.20 dB single-mode (one public source).
    assertThat(found).extracting(i -> i.limit().db()).containsExactly(0.05, 0.05, 0.10, 0.10);
    assertThat(found.get(3).limit().origin()).isEqualTo(EndLimit.Origin.ASSUMED);
    assertThat(
            Isolator.isolate(readings, Mated.RULEBOOK, Optional.of(FibreKind.MULTIMODE))
                .get(3)
                .limit()
                .db())
        .isEqualTo(0.05);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void estimatesLieAboutTheTruthAsTheirStandardDeviationsSay(long seed) {
    Random random = new Random(seed);
    double sumOfSquares = 0;
    int count = 0;
    int jobs = 60;
    for (int job = 0; job < jobs; job++) {
      Map<EndId, Double> truth = new TreeMap<>();
      List<PathReading> readings = new ArrayList<>();
      String[] ends = {"A/1", "A/2", "B/1", "B/2", "C/1"};
      for (String end : ends) {
        truth.put(Mated.end(end), random.nextDouble() * 0.3);
      }
      for (String one : ends) {
        for (String other : ends) {
          if (one.compareTo(other) < 0 && one.charAt(0) != other.charAt(0)) {
            double loss =
                truth.getOrDefault(Mated.end(one), 0.0) + truth.getOrDefault(Mated.end(other), 0.0);
            readings.add(Mated.reading(one + "+" + other, loss + 0.02 * random.nextGaussian()));
          }
        }
      }
      Isolation found = Mated.isolated(readings);
      assertThat(found.rank()).isEqualTo(5);
      for (EndFinding end : found.ends()) {
        Estimate loss = end.loss().orElseThrow();
        // The spread is taken as known here, so that the sum is one of normal squares.
        double off =
            (loss.db() - truth.getOrDefault(end.end(), 0.0))
                / (loss.sdDb() / found.spread().factor());
        sumOfSquares += off * off;
        count++;
        assertThat(Math.abs(off)).isLessThan(5);
      }
    }
    assertThat(sumOfSquares / count).isBetween(0.7, 1.35);
  }

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14})
  void theOrderOfReadingsChangesNothingToTheLastDigit(long seed) {
    Random random = new Random(seed);
    String[] paths = {
      "L/2+R/1", "L/2+X/1;X/2+R/1", "L/2+X/1", "L/2+X/2", "Y/1+X/2", "L/2+R/1", "Z/1+W/1"
    };
    List<PathReading> readings = new ArrayList<>();
    for (String path : paths) {
      readings.add(Mated.reading(path, 0.05 + 0.2 * random.nextDouble()));
    }
    Isolation first = Mated.isolated(readings);
    for (int i = 0; i < 20; i++) {
      Collections.shuffle(readings, random);
      assertThat(Mated.isolated(readings)).isEqualTo(first);
    }
  }

  /** Random tables of launch against receive ends: never more than nodes less components. */
  @ParameterizedTest
  @ValueSource(longs = {21, 22, 23, 24, 25, 26})
  void aBipartiteTableNeverTellsAnEnd(long seed) {
    Random random = new Random(seed);
    List<PathReading> readings = new ArrayList<>();
    int[] component = {0, 1, 2, 3, 4, 5, 6, 7};
    for (int i = 0; i < 4; i++) {
      for (int j = 4; j < 8; j++) {
        if (random.nextInt(3) > 0) {
          readings.add(Mated.reading("L" + i + "/2+R" + j + "/1", 0.1 * random.nextDouble()));
          int from = component[i];
          int to = component[j];
          for (int k = 0; k < 8; k++) {
            component[k] = component[k] == from ? to : component[k];
          }
        }
      }
    }
    Isolation found = Mated.isolated(readings);
    long components =
        found.ends().stream()
            .map(end -> component[end.end().cord().charAt(1) - '0'])
            .distinct()
            .count();
    assertThat(found.rank()).isEqualTo((int) (found.ends().size() - components));
    assertThat(found.ends()).allMatch(end -> end.loss().isEmpty());
    assertThat(found.next().orElseThrow().why()).isEqualTo(Why.TELL);
  }

  /** Whoever follows the advice, whatever it is, comes to an end with every end told. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "L/2+R/1",
        "L/2+X/1;X/2+R/1",
        "L/2+X/1",
        "L1/2+R1/1|L2/2+R2/1|L3/2+R3/1",
        "A/1+B/1;B/2+C/1;C/2+D/1"
      })
  void theAdviceLeadsToEveryEndBeingTold(String start) {
    List<PathReading> readings = new ArrayList<>();
    for (String path : start.split("\\|", -1)) {
      readings.add(Mated.reading(path, 0.04 * Mated.path(path).ends().size()));
    }
    int steps = 0;
    Optional<NextMeasurement> next = Mated.isolated(readings).next();
    while (next.isPresent()) {
      readings.add(
          Mated.reading(next.get().path().toString(), 0.04 * next.get().path().ends().size()));
      steps++;
      assertThat(steps).isLessThan(20);
      next = Mated.isolated(readings).next();
    }
    assertThat(Mated.isolated(readings).allInOrder()).isTrue();
  }

  @Test
  void moreEndsThanCanBeSolvedInReasonAreRefused() {
    List<PathReading> readings = new ArrayList<>();
    for (int i = 0; i < 31; i++) {
      readings.add(Mated.reading("L" + i + "/2+R" + i + "/1", 0.1));
    }
    assertThat(Mated.isolated(readings.subList(0, 30)).rank()).isEqualTo(30);
    assertThatThrownBy(() -> Mated.isolated(readings))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("At most 60 ends");
  }
}
