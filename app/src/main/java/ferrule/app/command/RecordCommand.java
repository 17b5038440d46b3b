package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.Terminal;
import ferrule.app.Version;
import ferrule.app.face.DrawnPictures;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.record.RecordException;
import ferrule.record.RecordWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule record JOB -o DIR}. */
@Command(
    name = "record",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Issue the record for the owner: a PDF to read and the data it was made from.",
      "The record says what is proved and what is not; it can be issued at any time."
    })
final class RecordCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB|DIR", description = "A job file or a job folder.")
  private Path job;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "DIR",
      required = true,
      description = "The folder to write; must not exist, or be empty.")
  private Path output;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  RecordCommand() {}

  @Override
  public Integer call() throws BadInputException {
    Terminal terminal = parent.terminal();
    terminal.progress("Judging " + job);
    LoadedJob loaded = Jobs.load(job);
    Judgement judgement = Judge.judge(loaded.job());
    terminal.progress("Writing the record");
    List<Problem> missing =
        write(loaded, judgement, output, Instant.now().truncatedTo(ChronoUnit.SECONDS));
    terminal.progressDone();
    terminal.problems(loaded.problems());
    terminal.problems(missing);
    terminal.out().println("The record is in " + output + "; begin with record.pdf");
    if (!missing.isEmpty() || (loaded.fromFolder() && !loaded.problems().isEmpty())) {
      return ExitCode.BAD_INPUT;
    }
    return judgement.allProved() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  /** Writes the record; gives back what is wrong with its pictures. */
  static List<Problem> write(LoadedJob loaded, Judgement judgement, Path output, Instant issuedAt)
      throws BadInputException {
    try {
      DrawnPictures pictures = new DrawnPictures(loaded.pictures());
      RecordWriter.write(
          judgement,
          loaded.problems(),
          loaded.notes(),
          output,
          issuedAt,
          Version.number(),
          pictures);
      return pictures.problems();
    } catch (RecordException e) {
      throw new BadInputException(e.problem());
    }
  }
}
