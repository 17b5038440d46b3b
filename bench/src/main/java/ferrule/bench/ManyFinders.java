package ferrule.bench;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.many.ClockFinder;
import ferrule.core.trust.many.CordWornFinder;
import ferrule.core.trust.many.LengthsFinder;
import ferrule.core.trust.many.RepeatedValuesFinder;
import ferrule.core.trust.many.Timeline;
import ferrule.core.trust.many.TooQuickFinder;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * What looks at many readings together, one finder at a time on one thread, over the ledger of
 * 100,000 fibres (400,000 readings), against one plain pass over the same readings. Each finder
 * starts from times that are not worked out yet; {@link #together} works them out once for all.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 8, time = 2)
@Fork(2)
public class ManyFinders {

  private static final int LINKS = 50_000;

  @SuppressWarnings("NullAway.Init") // resolved before anything is measured
  private Ledger ledger;

  /** Resolves the folder's job; the folder itself is needed no more. */
  @Setup(Level.Trial)
  public void resolve() throws IOException {
    Path folder = BigFolder.write(LINKS);
    ledger = Ledger.of(JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow());
    BigFolder.remove(folder);
    if (ledger.readings().size() != 8 * LINKS) {
      throw new IllegalStateException("Only " + ledger.readings().size() + " readings");
    }
  }

  /** Baseline: the sum of all losses, and a hash of the zeros' ids. */
  @Benchmark
  public double ledgerPass() {
    double losses = 0;
    int zeros = 1;
    for (AssessedReading reading : ledger.readings()) {
      losses += reading.lossDb();
      zeros = 31 * zeros + reading.reading().reference().hashCode();
    }
    return losses + zeros;
  }

  private List<Doubt> found(DoubtFinder... finders) {
    List<Doubt> doubts = new ArrayList<>();
    for (DoubtFinder finder : finders) {
      finder.find(ledger, doubts::add);
    }
    return doubts;
  }

  /** Sets of values that repeat. */
  @Benchmark
  public List<Doubt> repeatedValues() {
    return found(new RepeatedValuesFinder(new Timeline(ledger)));
  }

  /** Links read too soon one after the other; what is wrong with the clocks comes before it. */
  @Benchmark
  public List<Doubt> tooQuick() {
    return found(new TooQuickFinder(new Timeline(ledger)));
  }

  /** Times that cannot be right. */
  @Benchmark
  public List<Doubt> clock() {
    return found(new ClockFinder(new Timeline(ledger)));
  }

  /** Cords near their end. */
  @Benchmark
  public List<Doubt> cordWorn() {
    return found(new CordWornFinder(new Timeline(ledger)));
  }

  /** Lengths and identity. */
  @Benchmark
  public List<Doubt> lengths() {
    return found(new LengthsFinder());
  }

  /** All of them, as the judge runs them, but one after the other. */
  @Benchmark
  public List<Doubt> together() {
    Timeline timeline = new Timeline(ledger);
    return found(
        new RepeatedValuesFinder(timeline),
        new TooQuickFinder(timeline),
        new ClockFinder(timeline),
        new CordWornFinder(timeline),
        new LengthsFinder());
  }
}
