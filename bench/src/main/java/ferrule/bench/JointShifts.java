package ferrule.bench;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.joint.JointEstimate;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/**
 * The joint estimate of 400,000 readings under 2,000 zeros, against parsing the file of readings
 * with the CSV library and doing nothing with it; and its growth from a quarter of them.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 6, time = 2)
@Fork(2)
public class JointShifts {

  /** Links of two fibres, each read at two wavelengths both ways. */
  private static final int LINKS = 50_000;

  private static final int LINKS_PER_ZERO = 25;

  private final List<Path> folders = new ArrayList<>();
  private @Nullable Ledger all;
  private @Nullable Ledger quarter;

  /** Writes the folders and takes them in. */
  @Setup(Level.Trial)
  public void write() throws IOException {
    all = ledger(LINKS);
    quarter = ledger(LINKS / 4);
  }

  private Ledger ledger(int links) throws IOException {
    Path folder = BigFolder.write(links, LINKS_PER_ZERO);
    folders.add(folder);
    Ledger ledger = Ledger.of(JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow());
    if (ledger.current().size() != 8 * links) {
      throw new IllegalStateException("Readings are missing: not the usual job");
    }
    return ledger;
  }

  /** Removes them. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    for (Path folder : folders) {
      BigFolder.remove(folder);
    }
  }

  /** Baseline: all readings. */
  @Benchmark
  public void parseReadings(Blackhole hole) throws IOException {
    Path readings = folders.get(0).resolve("readings.csv");
    try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(readings)) {
      for (CsvRecord row : csv) {
        hole.consume(row);
      }
    }
  }

  /** The estimate of all. */
  @Benchmark
  public JointEstimate estimate() {
    return JointEstimate.of(Objects.requireNonNull(all));
  }

  /** Baseline of growth: the estimate of a quarter. */
  @Benchmark
  public JointEstimate estimateQuarter() {
    return JointEstimate.of(Objects.requireNonNull(quarter));
  }
}
