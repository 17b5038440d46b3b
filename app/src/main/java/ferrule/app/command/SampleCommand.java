package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.SampleText;
import ferrule.app.Terminal;
import ferrule.core.Problem;
import ferrule.core.sample.AcceptanceSample;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.SampleSize;
import ferrule.record.data.SampleJson;
import java.io.IOException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule sample JOB|DIR}. */
@Command(
    name = "sample",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Draw a fair sample to read again before witnesses, and say how often such a sample misses"
          + " what is bad.",
      "The longest fibre, the nearest and the one of least margin are in it; the others are drawn by"
          + " lot from every place, operator and cord. Without --fibres it is as large as must be to"
          + " find a bad fibre with --confidence if --bad per cent of the lot are bad."
    })
final class SampleCommand implements Callable<Integer> {

  private static final double[] SHARES = {0.01, 0.02, 0.05, 0.10};

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB|DIR", description = "A job file or a job folder.")
  private Path input;

  @Option(names = "--fibres", paramLabel = "N", description = "How many fibres to read again.")
  private @Nullable Integer fibres;

  @Option(
      names = "--bad",
      paramLabel = "PERCENT",
      defaultValue = "5",
      description = "Share of bad fibres that must not go unfound (default: ${DEFAULT-VALUE}).")
  private double bad;

  @Option(
      names = "--confidence",
      paramLabel = "PERCENT",
      defaultValue = "95",
      description = "With which confidence (default: ${DEFAULT-VALUE}).")
  private double confidence;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of the draw; by default a new one, which is printed.")
  private @Nullable Long seed;

  @Option(names = "--json", description = "One JSON document.")
  private boolean json;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  SampleCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    check("--bad", bad, 100);
    check("--confidence", confidence, 99.999);
    Integer wanted = fibres;
    if (wanted != null && wanted < 1) {
      throw bad("--fibres", "a whole number from 1 on", wanted.toString());
    }
    LoadedJob loaded = Jobs.load(input);
    Judgement judgement = Judge.judge(loaded.job());
    long of = seed == null ? new SecureRandom().nextInt(1_000_000) : seed;
    int size = wanted == null ? toFind(AcceptanceSample.lotOf(judgement)) : wanted;
    AcceptanceSample sample =
        AcceptanceSample.of(judgement, size, of, new SplittableRandom(of)::nextInt);
    if (loaded.fromFolder()) {
      terminal.problems(loaded.problems());
    }
    if (json) {
      SampleJson.write(terminal.out(), sample, sample.lot() == 0 ? new double[0] : SHARES);
      terminal.out().println();
    } else {
      SampleText.print(terminal, loaded.job().requirement().title(), sample, SHARES);
    }
    terminal.out().flush();
    return loaded.fromFolder() && !loaded.problems().isEmpty() ? ExitCode.BAD_INPUT : ExitCode.DONE;
  }

  /** The draw by lot alone must do it; the three always looked at come on top. */
  private int toFind(int lot) {
    if (lot == 0) {
      return 0;
    }
    int drawn = SampleSize.toFind(lot, SampleSize.badOf(lot, bad / 100), confidence / 100);
    return Math.min(lot, drawn + AcceptanceSample.ALWAYS);
  }

  private static void check(String option, double percent, double most) throws BadInputException {
    if (!(percent > 0 && percent <= most)) {
      throw bad(option, "per cent, above 0 and at most " + Math.round(most), percent + "");
    }
  }

  private static BadInputException bad(String option, String expected, String found) {
    return new BadInputException(
        new Problem("", 0, option, expected, found, "write it as a plain number"));
  }
}
