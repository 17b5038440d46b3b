package ferrule.core.trust.joint;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.checks.Check;
import ferrule.core.checks.CheckFile;
import ferrule.core.checks.Computations;
import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.trust.Ledger;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The joint estimate as a mixed model of given variances, against a textbook's data. Each batch is
 * a zero of one level, each preparation a fibre read once.
 */
class MixedModelChecksTest {

  /** Variance of the one level of an honest zero, dB²: the four parts of methods.md, section 8. */
  private static final double LEVEL = 0.012 * 0.012 + 0.014 * 0.014 + 0.006 * 0.006 + 0.008 * 0.008;

  private static final double TEXTBOOK_MEAN = 1527.5;
  private static final double METRES = 1;

  private static final Computations CORE =
      new Computations(
          c -> {
            c.number("mm.mean", row -> 1500 + new Fitted(row, 1500).freeMean());
            c.number("mm.mean.se", row -> new Fitted(row, 1500).freeMeanSe());
            c.number("mm.batch.*", row -> new Fitted(row, TEXTBOOK_MEAN).batch(row));
            c.number("mm.condvar.*", row -> new Fitted(row, TEXTBOOK_MEAN).varianceMeanGiven());
            c.number("mm.var.REML", row -> new Fitted(row, TEXTBOOK_MEAN).varianceMeanFree());
          });

  static List<Check> rows() {
    return CheckFile.read("mixed-model");
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

  /** The estimate of the data less an origin, grams scaled to dB. */
  private static final class Fitted {
    private final double dbPerGram;
    private final JointFit fit;

    /** What the mean of all readings is made of: border columns and what each adds. */
    private final int[] columns;

    private final double[] adds;

    Fitted(Check row, double origin) {
      dbPerGram = Math.sqrt(LEVEL / row.input("batch"));
      Frame frame = Frame.of(Ledger.of(job(origin).job()));
      assertThat(frame.fibres()).isEqualTo(30);
      assertThat(frame.readings()).isEqualTo(30);
      assertThat(frame.scale).containsOnly(1);
      double sd = Math.sqrt(row.input("residual")) * dbPerGram;
      fit = JointFit.of(frame, Scatter.known(frame, sd));
      JointFit.Touch touch = fit.touch();
      touch.of(0);
      columns = Arrays.copyOf(touch.column, touch.size);
      adds = new double[touch.size];
      for (int t = 0; t < touch.size; t++) {
        adds[t] = touch.x[t][0];
      }
    }

    private JobFixture job(double origin) {
      JobFixture job = JobFixture.singleMode();
      List<NamedCsvRecord> batches = CheckFile.table("/checks/dyestuff.csv");
      for (NamedCsvRecord batch : batches) {
        String name = batch.getField("batch");
        double[] yields =
            Arrays.stream(batch.getField("yields").split(";", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
        for (int i = 0; i < yields.length; i++) {
          job.link(link(name + i));
        }
        job.zero(ZeroFixture.zero(name).wavelengths(1310).directions(Direction.A_TO_B))
            .readAll(name, JobFixture.MORNING.plusSeconds(600), l -> l.id().startsWith(name), 1310)
            .without(r -> r.direction() == Direction.B_TO_A)
            .change(
                r -> r.reference().equals(name),
                JobFixture.loss(
                    r ->
                        r.lossDb()
                            + dbPerGram
                                * (yields[Integer.parseInt(r.link().substring(1))] - origin)));
      }
      return job;
    }

    private static Link link(String id) {
      Connector lc = Connector.parse("LC-UPC").orElseThrow();
      return new Link(
          id,
          FibreCategory.OS2,
          1,
          METRES,
          new LinkEnd("", "", lc),
          new LinkEnd("", "", lc),
          0,
          0,
          List.of());
    }

    private double meanDb() {
      double sum = 0;
      for (int t = 0; t < columns.length; t++) {
        sum += adds[t] * fit.parts[columns[t]];
      }
      return sum;
    }

    private double meanVariance() {
      double[] covariance = fit.covarianceOf(new int[0], columns);
      double sum = 0;
      for (int t = 0; t < columns.length; t++) {
        for (int u = 0; u < columns.length; u++) {
          sum += adds[t] * adds[u] * covariance[t * columns.length + u];
        }
      }
      return sum;
    }

    /** What the readings alone say of the mean, the prior taken out: 1/v - 1/prior. */
    private double meanInformation() {
      double prior = 0;
      for (int t = 0; t < columns.length; t++) {
        prior += adds[t] * adds[t] / fit.precisionAt(columns[t]);
      }
      return 1 / meanVariance() - 1 / prior;
    }

    double freeMean() {
      return meanDb() / meanVariance() / meanInformation() / dbPerGram;
    }

    double freeMeanSe() {
      return 1 / Math.sqrt(meanInformation()) / dbPerGram;
    }

    /** With the data's mean at 0 the prior of the mean pulls nothing. */
    double batch(Check row) {
      assertThat(meanDb()).isCloseTo(0, within(1e-9));
      String name = row.id().substring("mm.batch.".length());
      for (Frame.Level level : fit.frame.levels) {
        if (fit.frame.zeros.get(level.zero()).id().equals(name)) {
          return fit.levels[level.index()] / dbPerGram;
        }
      }
      throw new IllegalArgumentException(row.id());
    }

    private double shared() {
      double sum = 0;
      for (int t = 0; t < columns.length; t++) {
        sum += adds[t] * fit.covarianceWithPart(0, columns[t]);
      }
      return sum;
    }

    double varianceMeanGiven() {
      double db2 = fit.covariance(0, 0) - shared() * shared() / meanVariance();
      return db2 / (dbPerGram * dbPerGram);
    }

    /** The mean's variance without its prior put in place of that with it. */
    double varianceMeanFree() {
      double regression = shared() / meanVariance();
      double db2 = regression * regression / meanInformation();
      return varianceMeanGiven() + db2 / (dbPerGram * dbPerGram);
    }
  }
}
