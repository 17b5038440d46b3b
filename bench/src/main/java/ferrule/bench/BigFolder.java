package ferrule.bench;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Writes an invented job folder of many duplex links, read at two wavelengths both ways. Each fibre
 * has a part of its own that all its readings share, each direction its mating; what lies at the
 * joints shows at 1550 nm as an offset does.
 */
final class BigFolder {

  private static final int LINKS_PER_ZERO = 100;

  /** A pair of test cords serves for 1,000 links, which is 2,000 matings. */
  private static final int ZEROS_PER_CORDS = 10;

  /** Offset loss at 1550 nm over that at 1310 nm, by the mode fields of ITU-T G.652.D fibre. */
  private static final double OFFSET_AT_1550 = 0.78;

  private static final String[] DIRECTIONS = {"A-B", "B-A"};
  private static final int[] WAVELENGTHS = {1310, 1550};

  private BigFolder() {}

  static Path write(int links) throws IOException {
    return write(links, LINKS_PER_ZERO);
  }

  static Path write(int links, int linksPerZero) throws IOException {
    Path folder = Files.createTempDirectory("ferrule-bench-");
    SplittableRandom random = new SplittableRandom(1);
    Files.writeString(
        folder.resolve("job.toml"),
        """
        title = "Benchmark (invented)"
        [requirement]
        rulebook = "iso-11801-1"
        wavelengths_nm = [1310, 1550]
        directions = "both"
        method = "one-cord"
        decision = "simple"
        """);
    double[] lengths = new double[links];
    try (BufferedWriter out = Files.newBufferedWriter(folder.resolve("links.csv"))) {
      out.write(
          "link,fibre_category,fibres,length_m,a_place,a_port,a_connector,b_place,b_port,"
              + "b_connector,connections,splices\n");
      for (int i = 0; i < links; i++) {
        lengths[i] = Math.round(random.nextDouble(60, 900) * 10) / 10.0;
        out.write(
            String.format(
                Locale.ROOT,
                "K%06d,OS2,2,%.1f,Room %d,%03d,LC-UPC,Hall %d,%03d,LC-UPC,%d,0%n",
                i,
                lengths[i],
                i / 500,
                i % 500,
                i / 1000,
                i % 1000,
                i % 3));
      }
    }
    double[][] powers = new double[(links + linksPerZero - 1) / linksPerZero][4];
    try (BufferedWriter out = Files.newBufferedWriter(folder.resolve("references.csv"))) {
      out.write(
          "reference,set_at,method,direction,wavelength_nm,source,meter,launch_cord,receive_cord,"
              + "fibre_category,power_dbm,verification_db,operator\n");
      for (int zero = 0; zero < powers.length; zero++) {
        for (int k = 0; k < 4; k++) {
          powers[zero][k] = Math.round(random.nextDouble(-5.2, -4.8) * 100) / 100.0;
          out.write(
              String.format(
                  Locale.ROOT,
                  "R%d,%s,one-cord,%s,%d,S1,M1,L%d,R%d,OS2,%.2f,%.2f,Wren%n",
                  zero,
                  start(zero),
                  DIRECTIONS[k / 2],
                  WAVELENGTHS[k % 2],
                  zero / ZEROS_PER_CORDS,
                  zero / ZEROS_PER_CORDS,
                  powers[zero][k],
                  random.nextDouble(0.02, 0.12)));
        }
      }
    }
    try (BufferedWriter out = Files.newBufferedWriter(folder.resolve("readings.csv"))) {
      out.write(
          "link,fibre,direction,wavelength_nm,power_dbm,loss_db,length_m,reference,measured_at,"
              + "operator\n");
      for (int i = 0; i < links; i++) {
        int zero = i / linksPerZero;
        Instant at = start(zero).plusSeconds(300 + 180L * (i % linksPerZero));
        for (int fibre = 1; fibre <= 2; fibre++) {
          double own = -0.06 * (1 + Math.log(1 - random.nextDouble()));
          double mating = 0;
          for (int k = 0; k < 4; k++) {
            boolean shorter = k % 2 == 0;
            mating = shorter ? random.nextDouble(-0.05, 0.05) : mating;
            double joints = (0.24 + 0.2 * (i % 3) + own + mating) * (shorter ? 1 : OFFSET_AT_1550);
            double mean = (shorter ? 0.34 : 0.20) * lengths[i] / 1000 + joints;
            double loss =
                Math.round(Math.max(0.01, mean + random.nextDouble(-0.015, 0.015)) * 100) / 100.0;
            out.write(
                String.format(
                    Locale.ROOT,
                    "K%06d,%d,%s,%d,%.2f,%.2f,%.1f,R%d,%s,Wren%n",
                    i,
                    fibre,
                    DIRECTIONS[k / 2],
                    WAVELENGTHS[k % 2],
                    powers[zero][k] - loss,
                    loss,
                    lengths[i] + random.nextDouble(-0.3, 0.3),
                    zero,
                    at.toString().replace("Z", "+00:00")));
          }
        }
      }
    }
    return folder;
  }

  private static Instant start(int zero) {
    return Instant.parse("2024-01-05T08:00:00Z").plusSeconds(43_200L * zero);
  }

  static void remove(Path folder) throws IOException {
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
  }
}
