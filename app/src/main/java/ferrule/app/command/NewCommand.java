package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.Jobs;
import ferrule.app.Terminal;
import ferrule.app.face.FaceTakeIn;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.job.AddOutcome;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule new JOB --from DIR}. */
@Command(
    name = "new",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Make a job file from a job folder.",
      "Every row of the folder's tables ends as an entry of the job or as a listed problem. The file"
          + " appears only when all of it is stored."
    })
final class NewCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB", description = "The job file to make, for instance site.ferrule.")
  private Path job;

  @Option(
      names = "--from",
      paramLabel = "DIR",
      required = true,
      description =
          "The job folder: job.toml, links.csv, and as they come instruments, cords, references,"
              + " readings and faces, each .csv or .xlsx.")
  private Path from;

  @Option(
      names = "--by",
      paramLabel = "NAME",
      defaultValue = "",
      description =
          "Who hands the files in; history tells it. Nothing is taken from the computer's accounts.")
  private String by = "";

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  NewCommand() {}

  @Override
  public Integer call() throws BadInputException {
    Terminal terminal = parent.terminal();
    terminal.progress("Reading " + from);
    JobFolder folder = JobFolder.read(from, Purpose.STORE);
    if (!folder.whole() || folder.paper().isEmpty()) {
      throw new BadInputException(folder.problems());
    }
    FaceTakeIn faces =
        Jobs.faces(folder, from, done -> terminal.progress(done + " pictures graded"));
    try {
      AddOutcome outcome =
          JobFile.create(
              job,
              new Batch(
                      folder.paper(),
                      faces.tables(),
                      faces.grades(),
                      faces.pictures(),
                      folder.fileNotes())
                  .by(by.strip()),
              Clock.systemUTC(),
              new SecureRandom(),
              rows -> terminal.progress(rows + " rows stored"));
      terminal.progressDone();
      return OutcomeText.print(terminal, job, outcome);
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }
}
