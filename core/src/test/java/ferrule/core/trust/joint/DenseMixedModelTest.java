package ferrule.core.trust.joint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Job;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.Method;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The joint estimate of small random jobs against the same model solved dense by another library:
 * estimates, covariances, and the size of every effect that the search proposes.
 */
class DenseMixedModelTest {

  /** Of values of some hundredths of a dB, both sides solved in double precision. */
  private static final double DB = 1e-9;

  private static final double DB2 = 1e-11;

  /** A job, its readings, the scatter they are weighed with, the estimate and the dense model. */
  private record Both(Frame frame, JointFit fit, DenseMixedModel dense) {
    /**
     * Weighed as if they scattered three times as much, so that no reading is far enough out to be
     * held still and the model is linear.
     */
    static Both of(long seed) {
      Frame frame = Frame.of(Ledger.of(job(seed)));
      double[] wide = Arrays.stream(frame.excess).map(x -> 3 * x).toArray();
      Scatter scatter = Scatter.of(frame, wide);
      return new Both(
          frame, JointFit.of(frame, scatter), new DenseMixedModel(frame, scatter, false));
    }
  }

  private static LinkEnd end(String place, int port, String connector) {
    return new LinkEnd(place, "" + port, Connector.parse(connector).orElseThrow());
  }

  /**
   * Twelve links of two single-mode fibres, all with array connectors, and eight multimode fibres,
   * under four zeros; four places, some connections and splices, a step under the second zero, and
   * some fibres read in one direction only.
   */
  private static Job job(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    JobFixture job = JobFixture.singleMode().wavelengths(850, 1300, 1310, 1550);
    for (int i = 0; i < 12; i++) {
      job.link(
          new Link(
              "K%03d".formatted(i),
              FibreCategory.OS2,
              2,
              40 + 900 * random.nextDouble(),
              end("Rack " + i % 2, i, "MPO-APC"),
              end("Bay " + i % 3, i, "MPO-APC"),
              i % 4 == 3 ? 1 : 0,
              i % 5 == 4 ? 2 : 0,
              List.of()));
    }
    for (int i = 0; i < 8; i++) {
      job.link(
          new Link(
              "M%03d".formatted(i),
              FibreCategory.OM4,
              1,
              20 + 250 * random.nextDouble(),
              end("Rack " + i % 2, 100 + i, "LC-UPC"),
              end("Desk", i, "LC-UPC"),
              i % 4 == 1 ? 1 : 0,
              i % 3,
              List.of()));
    }
    for (int z = 0; z < 2; z++) {
      int half = z;
      job.zero(
              ZeroFixture.zero("Z" + z)
                  .method(z == 0 ? Method.ONE_CORD : Method.TWO_CORD)
                  .at(JobFixture.MORNING.plus(Duration.ofHours(z))))
          .readAll(
              "Z" + z,
              JobFixture.MORNING.plus(Duration.ofHours(z)).plusSeconds(900),
              l -> l.id().startsWith("K") && Integer.parseInt(l.id().substring(1)) / 6 == half,
              1310,
              1550);
    }
    job.zero(ZeroFixture.multimode("Z2")).readAll("Z2", 850, 1300);
    job.without(r -> r.link().equals("K004") && r.direction() == Direction.B_TO_A);
    job.without(r -> r.link().equals("M003") && r.wavelength().nm() == 1300);
    Map<String, Double> own = new HashMap<>();
    return job.change(
            r -> true,
            JobFixture.loss(
                r -> {
                  double fibre = drawn(own, random, r.fibreId().toString(), 0.2);
                  double mating = drawn(own, random, r.fibreId() + " " + r.direction(), 0.08);
                  double zero = drawn(own, random, r.reference() + " " + r.direction(), 0.06);
                  double step =
                      r.reference().equals("Z1") && r.link().compareTo("K009") >= 0 ? 0.25 : 0;
                  double meter = 0.02 * (random.nextDouble() - 0.5);
                  return r.lossDb() + fibre + mating + zero + step + meter;
                }))
        .job();
  }

  private static double drawn(
      Map<String, Double> own, SplittableRandom random, String name, double wide) {
    return own.computeIfAbsent(name, k -> wide * (random.nextDouble() - 0.5));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void levelsAndTheirCovariancesAreThoseOfTheDenseModel(long seed) {
    Both both = Both.of(seed);
    double[] estimate = both.dense().estimate();
    double[][] covariance = both.dense().covariance();
    double largest = 0;
    double across = 0;
    for (Frame.Level one : both.frame().levels) {
      int l = one.index();
      largest = Math.max(largest, Math.abs(estimate[l]));
      assertThat(both.fit().levels[l]).isCloseTo(estimate[l], within(DB));
      for (Frame.Level two : both.frame().levels) {
        int k = two.index();
        across = Math.max(across, one.zero() == two.zero() ? 0 : Math.abs(covariance[l][k]));
        assertThat(both.fit().covariance(l, k)).isCloseTo(covariance[l][k], within(DB2));
      }
    }
    // What the parts tie together across zeros is worth comparing.
    assertThat(largest).isGreaterThan(0.005);
    assertThat(across).isGreaterThan(1e-6);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void fittedValuesAndWhatThePartsAddAreThoseOfTheDenseModel(long seed) {
    Both both = Both.of(seed);
    assertThat(both.dense().parts()).isEqualTo(both.fit().borderSize());
    double[] estimate = both.dense().estimate();
    double[][] covariance = both.dense().covariance();
    JointFit.Touch touch = both.fit().touch();
    for (int r = 0; r < both.frame().readings(); r++) {
      assertThat(both.frame().excess[r] - both.fit().residual[r])
          .isCloseTo(dot(both.dense().row(r, true), estimate), within(DB));
      int i = both.frame().fibreOf[r];
      int k = r - both.frame().start[i];
      touch.of(i);
      int[] columns = Arrays.copyOf(touch.column, touch.size);
      double[] adds = new double[touch.size];
      double sum = 0;
      double withLevel = 0;
      int level = both.frame().levelOf[r];
      for (int t = 0; t < touch.size; t++) {
        adds[t] = touch.x[t][k];
        sum += adds[t] * both.fit().parts[columns[t]];
        withLevel += adds[t] * both.fit().covarianceWithPart(level, columns[t]);
      }
      double[] row = both.dense().row(r, false);
      assertThat(sum).isCloseTo(dot(row, estimate), within(DB));
      assertThat(withLevel).isCloseTo(dot(row, covariance[level]), within(DB2));
      double[] all = both.fit().covarianceOf(new int[0], columns);
      double variance = 0;
      for (int t = 0; t < adds.length; t++) {
        for (int u = 0; u < adds.length; u++) {
          variance += adds[t] * adds[u] * all[t * adds.length + u];
        }
      }
      double expected = 0;
      for (int t = 0; t < row.length; t++) {
        expected += row[t] * dot(row, covariance[t]);
      }
      assertThat(variance).isCloseTo(expected, within(DB2));
    }
  }

  private static double dot(double[] one, double[] other) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += one[i] * other[i];
    }
    return sum;
  }

  /** Positions are compared within links by another rule, so they are left out. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void everyProposedEffectHasTheSizeOfGeneralisedLeastSquares(long seed) {
    Both both = Both.of(seed);
    DenseMixedModel alike = new DenseMixedModel(both.frame(), both.fit().scatter, true);
    Set<Class<?>> kinds = new HashSet<>();
    for (Suspect suspect : new Search(both.fit()).suspects()) {
      Effect effect = suspect.effect();
      if (effect instanceof Effect.HighPosition) {
        continue;
      }
      kinds.add(effect.getClass());
      DenseMixedModel model = effect instanceof Effect.HighPlace ? alike : both.dense();
      double[] expected = model.effect(effect, 0);
      assertThat(suspect.sizeDb()).as("%s", effect).isCloseTo(expected[0], within(1e-7));
      assertThat(suspect.sdDb()).as("%s", effect).isCloseTo(expected[1], within(1e-7));
      JointFit with = both.fit().with(List.of(effect));
      if (effect instanceof Effect.HighPlace) {
        continue;
      }
      double[] taken = both.dense().effect(effect, 1);
      assertThat(with.parts[with.effectAt(0)]).as("%s", effect).isCloseTo(taken[0], within(1e-7));
      assertThat(Math.sqrt(with.varianceOfPart(with.effectAt(0))))
          .as("%s", effect)
          .isCloseTo(taken[1], within(1e-7));
    }
    assertThat(kinds)
        .contains(Effect.Shift.class, Effect.Step.class, Effect.Drift.class, Effect.Bias.class);
  }
}
