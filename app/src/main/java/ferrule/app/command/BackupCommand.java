package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.store.job.FileCheck;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule backup JOB TO}. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Copy a job file as it is at this moment, also while it is open and written to.",
      "The copy is one file. It appears only when it is whole and checked: SQLite's own check, the"
          + " chain of hashes, pictures and joined files. A file that is there is never overwritten."
    })
final class BackupCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  private Path job;

  @Parameters(index = "1", paramLabel = "TO", description = "The file to make.")
  private Path to;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  BackupCommand() {}

  @Override
  public Integer call() throws BadInputException {
    Terminal terminal = parent.terminal();
    terminal.progress("Copying " + job);
    try (JobFile file = JobFile.openAsIs(job, Clock.systemUTC(), new SecureRandom())) {
      FileCheck copied = file.backup(to);
      terminal.progressDone();
      terminal
          .out()
          .println(
              to
                  + " holds "
                  + OutcomeText.count(copied.entries(), "entry", "entries")
                  + " and is whole; head "
                  + copied.head());
      terminal.out().flush();
      return ExitCode.DONE;
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }
}
