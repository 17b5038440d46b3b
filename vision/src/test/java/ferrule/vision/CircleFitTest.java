package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CircleFitTest {
  private static final double[] X = {1, 2, 5, 7, 9, 3};
  private static final double[] Y = {7, 6, 8, 7, 5, 7};

  /** Gander, Golub and Strebel 1994, BIT 34, 558 (points and answers from memory, recomputed). */
  @Test
  void sixPointSetComesOutAsKnown() throws IOException {
    CircleFit taubin = CircleFit.taubin(X, Y);
    CircleFit geometric = taubin.refined(X, Y, new double[] {1, 1, 1, 1, 1, 1}, false);
    int rows = 0;
    try (Reader in =
            new InputStreamReader(
                Objects.requireNonNull(getClass().getResourceAsStream("/checks/circle-fits.csv")),
                StandardCharsets.UTF_8);
        CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(in)) {
      for (NamedCsvRecord row : csv) {
        String id = row.getField("id");
        if (!id.startsWith("circ.ggs.taubin") && !id.startsWith("circ.ggs.geometric")) {
          continue;
        }
        CircleFit fit = id.contains("taubin") ? taubin : geometric;
        double got = id.endsWith("x") ? fit.cx() : id.endsWith("y") ? fit.cy() : fit.rx();
        assertThat(got)
            .as(id)
            .isCloseTo(
                Double.parseDouble(row.getField("expected")),
                within(Double.parseDouble(row.getField("tolerance"))));
        rows++;
      }
    }
    assertThat(rows).isEqualTo(6);
  }

  /** First-order theory: Al-Sharadqah and Chernov 2009, Electron. J. Statist. 3, 886. */
  @Test
  void scatterOfCentreAndRadiusIsThatOfTheory() {
    Random random = new Random(11);
    int n = 360;
    double sx = 0;
    double sr = 0;
    int sets = 3000;
    for (int k = 0; k < sets; k++) {
      double[] x = new double[n];
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        double r = 100 + 0.5 * random.nextGaussian();
        x[i] = r * Math.cos(2 * Math.PI * i / n);
        y[i] = r * Math.sin(2 * Math.PI * i / n);
      }
      CircleFit fit = CircleFit.taubin(x, y);
      sx += fit.cx() * fit.cx() / sets;
      sr += (fit.rx() - 100) * (fit.rx() - 100) / sets;
    }
    assertThat(Math.sqrt(sx)).isCloseTo(0.0372678, within(0.002));
    assertThat(Math.sqrt(sr)).isCloseTo(0.026352314, within(0.0015));
  }
}
