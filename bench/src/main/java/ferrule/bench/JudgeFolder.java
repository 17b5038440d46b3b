package ferrule.bench;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Ledger;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
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
 * Judging a folder of 100,000 fibres (400,000 readings), from files to judgement, against parsing
 * the same CSV files with the same CSV library and doing nothing with them. Heap and collector as
 * the command has them ({@link Bench}).
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 8, time = 2)
@Fork(2)
public class JudgeFolder {

  private static final int LINKS = 50_000;
  private static final String[] FILES = {"links.csv", "references.csv", "readings.csv"};

  private Path folder = Path.of("");

  /** Writes the folder. */
  @Setup(Level.Trial)
  public void write() throws IOException {
    folder = BigFolder.write(LINKS);
    int proved = judge().totals().values().iterator().next();
    if (proved < LINKS) {
      throw new IllegalStateException("Only " + proved + " fibres are proved: not the usual job");
    }
  }

  /** Removes it. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    BigFolder.remove(folder);
  }

  /** Baseline. */
  @Benchmark
  public void parseOnly(Blackhole hole) throws IOException {
    for (String file : FILES) {
      try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(folder.resolve(file))) {
        for (CsvRecord row : csv) {
          hole.consume(row);
        }
      }
    }
  }

  /** From files to what follows from papers, clock and one fibre alone; no joint estimate. */
  @Benchmark
  public void judgePapers(Blackhole hole) {
    Ledger ledger = Ledger.of(JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow());
    Judge.ofPapers().parallelStream().forEach(finder -> finder.find(ledger, hole::consume));
  }

  /** From files to judgement. */
  @Benchmark
  public Judgement judge() {
    return Judge.judge(JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow());
  }
}
