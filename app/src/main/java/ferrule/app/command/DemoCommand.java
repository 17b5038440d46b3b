package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.JudgementText;
import ferrule.app.LoadedJob;
import ferrule.app.Terminal;
import ferrule.app.audit.RecordJob;
import ferrule.app.demo.DemoSite;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.job.AddOutcome;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule demo}. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Make an invented job, judge it, write its record, open the desk.",
      "The site, its people and its trouble are invented; docs/demo.md tells what was planted."
    })
final class DemoCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "DIR",
      description = "The folder to make (default: ferrule-demo, or the next free number).")
  private @Nullable Path output;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "2026",
      description = "Another seed, another site (default: ${DEFAULT-VALUE}).")
  private long seed;

  @Option(names = "--no-desk", description = "End after the record.")
  private boolean noDesk;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "7340",
      description = "Port of the desk; 0 takes any that is free (default: ${DEFAULT-VALUE}).")
  private int port;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  DemoCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException, InterruptedException {
    Terminal terminal = parent.terminal();
    Path base = output == null ? free() : output;
    if (Files.exists(base)) {
      throw new BadInputException(
          new Problem(
              base.toString(),
              0,
              "",
              "a name that is not taken",
              "a folder or file of this name",
              "choose another with -o"));
    }
    Path folder = base.resolve("folder");
    Path job = base.resolve("demo.ferrule");
    Path record = base.resolve("record");
    terminal.progress("Inventing a site");
    Files.createDirectories(folder);
    DemoSite.write(folder, seed);
    make(terminal, folder, job);
    Instant issuedAt = RecordCommand.now();
    try (RecordJob read = RecordJob.of(job, issuedAt)) {
      LoadedJob loaded = read.loaded();
      Judgement judgement = Judge.judge(loaded.job());
      terminal.progressDone();
      JudgementText.print(terminal, loaded, judgement, false);
      terminal.out().println();
      terminal.out().flush();
      terminal.progress("Writing the record");
      // An invented record is not signed: no key of a real person is made for it.
      RecordCommand.write(read, judgement, record, issuedAt, Optional.empty(), Optional.empty());
      terminal.progressDone();
    }
    terminal.out().println("This site is invented. Its job folder is " + folder);
    terminal.out().println("The job file is " + job + "; judge it with: ./ferrule judge " + job);
    terminal.out().println("The record is in " + record + "; begin with record.pdf");
    terminal.out().flush();
    if (!noDesk) {
      DeskCommand.serve(terminal, job, port);
    }
    return ExitCode.DONE;
  }

  private static Path free() {
    Path path = Path.of("ferrule-demo");
    for (int i = 2; Files.exists(path); i++) {
      path = Path.of("ferrule-demo-" + i);
    }
    return path;
  }

  private static void make(Terminal terminal, Path folder, Path job) throws BadInputException {
    JobFolder read = JobFolder.read(folder, Purpose.STORE);
    if (!read.whole() || read.paper().isEmpty()) {
      throw new IllegalStateException("The demo's own folder: " + read.problems());
    }
    try {
      AddOutcome outcome =
          JobFile.create(
              job,
              new Batch(read.paper(), read.tables(), read.fileNotes()),
              Clock.systemUTC(),
              new SecureRandom(),
              rows -> terminal.progress(rows + " rows stored"));
      if (!outcome.problems().isEmpty()) {
        throw new IllegalStateException("The demo's own rows: " + outcome.problems());
      }
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }
}
