package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.checks.TextbookStatistics;
import ferrule.core.checks.TextbookStatistics.Cut;
import ferrule.core.fixture.JobFixture;
import ferrule.core.trust.PlantedJobs.Planted;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Ferrule's doubts against textbook statistics of the same jobs, each at its own alarm level: a
 * largest cut with pooled deviation, CUSUM and EWMA for steps; a straight line for drifts; Grubbs'
 * test for outliers; Welch's t for shifts. The textbook statistics are themselves checked in {@code
 * TextbookStatisticsTest}; they see one value a link, the mean of its readings.
 */
class TextbookOraclesTest {

  private static final int LINKS = 48;

  /** Fewest fibres on either side of a step, and the chances of methods.md, section 8. */
  private static final int LEAST = 5;

  private static final double STEP_CHANCE = 0.0006;
  private static final double DRIFT_CHANCE = 0.0006;
  private static final double SHIFT_CHANCE = 0.0008;

  /** Of a link's mean: part 0.08 dB, half the variance of two matings of 0.03 dB, mean pattern. */
  private static final double SERIES_SD = Math.sqrt(0.0064 + 0.00045) * (1 + 1 / 1.278) / 2;

  private static Planted job(long seed, IntToDoubleFunction more) {
    return PlantedJobs.of(seed, 1, LINKS, more);
  }

  private static IntToDoubleFunction step(int at, double db) {
    return i -> i >= at ? db : 0;
  }

  private static int place(int seed) {
    return 12 + seed * 5 % 25;
  }

  /** What the largest cut of an honest series exceeds with the chance allowed for steps. */
  private static double criticalCut() {
    SplittableRandom random = new SplittableRandom(48);
    double[] largest = new double[60_000];
    double[] x = new double[LINKS];
    for (int s = 0; s < largest.length; s++) {
      Arrays.setAll(x, i -> random.nextGaussian());
      largest[s] = Math.abs(TextbookStatistics.largestCut(x, Double.NaN, LEAST).t());
    }
    Arrays.sort(largest);
    return largest[(int) (largest.length * (1 - STEP_CHANCE))];
  }

  private static double criticalT(double chance, int degrees) {
    return TDistribution.of(degrees).inverseSurvivalProbability(chance / 2);
  }

  @Test
  void honestJobsRingNeitherHereNorThere() {
    double cut = criticalCut();
    int oracle = 0;
    for (int seed = 1; seed <= 60; seed++) {
      Planted planted = job(seed, i -> 0);
      assertThat(Judge.judge(planted.job().job()).doubts()).as("seed %d", seed).isEmpty();
      oracle +=
          Math.abs(TextbookStatistics.largestCut(planted.series(), Double.NaN, LEAST).t()) > cut
              ? 1
              : 0;
    }
    assertThat(oracle).isLessThanOrEqualTo(1);
  }

  @Test
  void smallStepsAreFoundAtLeastAsOftenAsByTheLargestCutOfTheMeans() {
    double cut = criticalCut();
    int oracle = 0;
    int found = 0;
    for (int seed = 1; seed <= 40; seed++) {
      Planted planted = job(seed, step(place(seed), 0.10));
      oracle +=
          Math.abs(TextbookStatistics.largestCut(planted.series(), Double.NaN, LEAST).t()) > cut
              ? 1
              : 0;
      found += PlantedJobs.doubts(planted.job(), DoubtKind.LEVEL_STEP).isEmpty() ? 0 : 1;
    }
    assertThat(oracle).as("the comparison has room on both sides").isBetween(10, 30);
    assertThat(found).isGreaterThanOrEqualTo(oracle);
  }

  @Test
  void clearStepsAreNamedAtTheMomentThatThreeTextbookStatisticsName() {
    int nearCusum = 0;
    for (int seed = 1; seed <= 30; seed++) {
      int at = place(seed);
      double db = seed % 2 == 0 ? 0.30 : -0.30;
      Planted planted = job(seed, step(at, db));
      List<Doubt> doubts = PlantedJobs.doubts(planted.job(), DoubtKind.LEVEL_STEP);
      assertThat(doubts).as("seed %d", seed).hasSize(1);
      int named = PlantedJobs.reached(doubts.get(0)).get(0);
      double size = doubts.get(0).measure("step_db").orElseThrow();
      Cut cut = TextbookStatistics.largestCut(planted.series(), Double.NaN, LEAST);
      assertThat(named).as("seed %d", seed).isCloseTo(cut.after(), within(1));
      assertThat(named).as("seed %d", seed).isEqualTo(at);
      assertThat(size).as("seed %d", seed).isCloseTo(cut.size(), within(0.07));
      assertThat(size).as("seed %d", seed).isCloseTo(db, within(0.03));
      double[] up = Arrays.stream(planted.series()).map(v -> db > 0 ? v : -v).toArray();
      double target = db > 0 ? 0.30 : -0.30;
      double[] sums = TextbookStatistics.cusum(up, target, SERIES_SD, 0.5, 0);
      int signal = TextbookStatistics.firstAbove(sums, 8);
      assertThat(signal).as("seed %d", seed).isGreaterThan(at);
      nearCusum += Math.abs(TextbookStatistics.lastZero(sums, signal) - named) <= 1 ? 1 : 0;
      double[] averages = TextbookStatistics.ewma(up, target, 0.2);
      double half = TextbookStatistics.ewmaHalfWidth(SERIES_SD, 0.2, 2.962, 1e9);
      int seen = TextbookStatistics.firstAbove(averages, target + half);
      assertThat(seen).as("EWMA, seed %d", seed).isBetween(named - 1, named + 6);
    }
    // A cumulative sum is off 0 before a step a good part of the time.
    assertThat(nearCusum).isGreaterThanOrEqualTo(18);
  }

  /**
   * The surer a step, the less its information leaves for the same step a second time; taken in
   * twice, it once shared its size with itself until none was left.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.2, 0.3, 0.4, 0.6, 1.0, 3.0})
  void aStepAmongReadingsThatHardlyScatterIsFoundOnce(double db) {
    JobFixture job = HostileScenes.ordinary(3, 1, 40, 1);
    job.change(r -> PlantedJobs.number(r.link()) >= 20, JobFixture.loss(r -> r.lossDb() + db));
    assertThat(PlantedJobs.doubts(job, DoubtKind.LEVEL_STEP))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(PlantedJobs.reached(d)).hasSize(20).startsWith(20);
              assertThat(d.measure("step_db").orElseThrow()).isCloseTo(db, within(0.02));
            });
  }

  @Test
  void driftsAreFoundAtLeastAsOftenAsByAStraightLineAndMeasuredBetter() {
    double critical = criticalT(DRIFT_CHANCE, LINKS - 2);
    int oracle = 0;
    int found = 0;
    double oracleError = 0;
    double error = 0;
    for (int seed = 1; seed <= 40; seed++) {
      Planted planted = job(seed + 500, i -> 0.15 * i / (LINKS - 1));
      oracle += Math.abs(TextbookStatistics.slopeT(planted.series())) > critical ? 1 : 0;
      List<Doubt> doubts = PlantedJobs.doubts(planted.job(), DoubtKind.LEVEL_DRIFT);
      if (!doubts.isEmpty()) {
        found++;
        double line = TextbookStatistics.slope(planted.series()) * (LINKS - 1);
        double size = doubts.get(0).measure("drift_db").orElseThrow();
        assertThat(size).as("seed %d", seed).isCloseTo(line, within(0.13));
        oracleError += Math.abs(line - 0.15);
        error += Math.abs(size - 0.15);
      }
    }
    assertThat(oracle).as("the comparison has room on both sides").isBetween(10, 30);
    assertThat(found).isGreaterThanOrEqualTo(oracle);
    assertThat(error).isLessThan(oracleError);
  }

  @Test
  void theOutlierIsTheOneOfGrubbs() {
    double critical = TextbookStatistics.grubbsCritical(LINKS, 0.01, false);
    for (int seed = 1; seed <= 40; seed++) {
      int at = seed * 7 % LINKS;
      Planted planted = job(seed + 900, i -> i == at ? 0.5 : 0);
      assertThat(TextbookStatistics.grubbs(planted.series())).isGreaterThan(critical);
      assertThat(argMax(planted.series())).isEqualTo(at);
      assertThat(PlantedJobs.doubts(planted.job(), DoubtKind.OUTLIER))
          .as("seed %d", seed)
          .singleElement()
          .satisfies(d -> assertThat(PlantedJobs.reached(d)).containsExactly(at));
    }
  }

  /** Several outliers hide one another from Grubbs' test, not from medians. */
  @Test
  void outliersThatHideOneAnotherFromGrubbsAreStillNamed() {
    double critical = TextbookStatistics.grubbsCritical(LINKS, 0.01, false);
    Set<Integer> at = Set.of(3, 11, 19, 30, 41, 44);
    int hidden = 0;
    for (int seed = 1; seed <= 10; seed++) {
      Planted planted = job(seed + 40, i -> at.contains(i) ? 0.6 : 0);
      hidden += TextbookStatistics.grubbs(planted.series()) < critical ? 1 : 0;
      assertThat(PlantedJobs.doubts(planted.job(), DoubtKind.OUTLIER))
          .as("seed %d", seed)
          .flatExtracting(PlantedJobs::reached)
          .containsExactlyInAnyOrderElementsOf(at);
    }
    assertThat(hidden).isGreaterThanOrEqualTo(8);
  }

  private static int argMax(double[] x) {
    int best = 0;
    for (int i = 1; i < x.length; i++) {
      best = x[i] > x[best] ? i : best;
    }
    return best;
  }

  @Test
  void theZeroThatIsOffIsTheOneOfWelchsTest() {
    int zeros = 4;
    int each = 16;
    double critical = criticalT(SHIFT_CHANCE / zeros, each);
    for (int seed = 1; seed <= 24; seed++) {
      int off = seed % zeros;
      double db = seed % 2 == 0 ? 0.18 : -0.18;
      Planted planted = PlantedJobs.of(seed + 1300, zeros, each, i -> i / each == off ? db : 0);
      int best = 0;
      double most = 0;
      double difference = 0;
      for (int z = 0; z < zeros; z++) {
        double[] own = Arrays.copyOfRange(planted.series(), z * each, (z + 1) * each);
        double[] rest = without(planted.series(), z * each, (z + 1) * each);
        double t = Math.abs(TextbookStatistics.welch(own, rest));
        if (t > most) {
          most = t;
          best = z;
          difference = TextbookStatistics.mean(own) - TextbookStatistics.mean(rest);
        }
      }
      assertThat(most).isGreaterThan(critical);
      assertThat(best).isEqualTo(off);
      List<Doubt> doubts = PlantedJobs.doubts(planted.job(), DoubtKind.ZERO_SHIFT);
      assertThat(doubts).as("seed %d", seed).hasSize(1);
      assertThat(doubts.get(0).subject()).isEqualTo(Subject.reference("Z" + off));
      assertThat(doubts.get(0).measure("shift_db").orElseThrow())
          .as("seed %d", seed)
          .isCloseTo(difference, within(0.04));
    }
  }

  private static double[] without(double[] x, int from, int to) {
    double[] rest = new double[x.length - (to - from)];
    System.arraycopy(x, 0, rest, 0, from);
    System.arraycopy(x, to, rest, from, x.length - to);
    return rest;
  }
}
