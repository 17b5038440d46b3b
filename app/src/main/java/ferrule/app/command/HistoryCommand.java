package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.HistoryJson;
import ferrule.app.HistoryText;
import ferrule.app.Terminal;
import ferrule.core.Problem;
import ferrule.core.plant.FibreId;
import ferrule.store.job.FileCheck;
import ferrule.store.job.HistoryEntry;
import ferrule.store.job.HistoryFilter;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.io.IOException;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule history JOB}. */
@Command(
    name = "history",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Tell who entered what when, from which file and row, and what was corrected by what and why.",
      "Without a choice: every file taken in, every join, every correction. The chain of hashes is"
          + " checked on the way."
    })
final class HistoryCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB", description = "The job file.")
  private Path job;

  @ArgGroup(exclusive = true)
  private @Nullable Choice choice;

  @Option(names = "--json", description = "One JSON document; without a choice, of every entry.")
  private boolean json;

  @Option(
      names = "--check",
      description =
          "Check the whole file first: SQLite's own check, the chain of hashes, pictures, and the"
              + " heads of joined files.")
  private boolean check;

  /** Of what the history is asked. */
  static final class Choice {
    @Option(
        names = "--fibre",
        paramLabel = "LINK/N",
        description = "Of one fibre, K014/2: its readings, its link, the faces at its ports.")
    private @Nullable String fibre;

    @Option(
        names = "--zero",
        paramLabel = "ID",
        description = "Of one zero: its levels, and the readings under it.")
    private @Nullable String zero;

    @Option(
        names = "--cord",
        paramLabel = "ID",
        description = "Of one cord: the zeros that name it, and the faces of its ends.")
    private @Nullable String cord;
  }

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  HistoryCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    HistoryFilter filter = filter();
    try (JobFile file = JobFile.openAsIs(job, Clock.systemUTC(), new SecureRandom())) {
      if (check) {
        FileCheck checked = file.check();
        if (!json) {
          HistoryText.checked(terminal.out(), job.toString(), checked);
        }
      }
      long told;
      if (json) {
        HistoryJson history = new HistoryJson(terminal.out(), job.toString());
        HistoryEntry.Log log = file.history(filter, history::entry);
        history.end(log);
        told = history.count();
      } else {
        HistoryText history = new HistoryText(terminal.out());
        HistoryEntry.Log log = file.history(filter, history::entry);
        history.end(job.toString(), log);
        told = history.count();
      }
      terminal.out().flush();
      if (told == 0) {
        throw nothing();
      }
      return ExitCode.DONE;
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  private HistoryFilter filter() throws BadInputException {
    Choice chosen = choice;
    if (chosen == null) {
      return json ? HistoryFilter.everything() : HistoryFilter.course();
    }
    if (chosen.zero != null) {
      return HistoryFilter.zero(chosen.zero);
    }
    if (chosen.cord != null) {
      return HistoryFilter.cord(chosen.cord);
    }
    String name = String.valueOf(chosen.fibre);
    return FibreId.ofWritten(name)
        .map(HistoryFilter::fibre)
        .orElseThrow(
            () -> unknown("--fibre", "a fibre, written LINK/N", name, "look in links.csv"));
  }

  /** A name that no entry knows is a slip of whoever asks. */
  private BadInputException nothing() {
    Choice chosen = choice;
    if (chosen != null && chosen.zero != null) {
      return unknown("--zero", "a zero of the job", chosen.zero, "look in references.csv");
    }
    if (chosen != null && chosen.cord != null) {
      return unknown("--cord", "a cord of the job", chosen.cord, "look in cords.csv");
    }
    String fibre = chosen == null ? "" : String.valueOf(chosen.fibre);
    return unknown("--fibre", "a fibre of the job, written LINK/N", fibre, "look in links.csv");
  }

  private static BadInputException unknown(
      String option, String expected, String name, String action) {
    return new BadInputException(new Problem("", 0, option, expected, name, action));
  }
}
