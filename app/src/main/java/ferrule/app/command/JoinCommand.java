package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Lines;
import ferrule.app.Terminal;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import ferrule.store.job.JoinOutcome;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule join JOB JOB --into JOB}. */
@Command(
    name = "join",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Join the job files of two crews, or of two ends, to a new one; the two stay as they are.",
      "What both hold stands once. What they say differently is kept both and listed: of readings"
          + " neither is believed, under a name the later entered stands and holds back what hangs on"
          + " it, until one is entered with ferrule add --supersede. The order of the two does not"
          + " matter. More than two: join the result with the next.",
      "Crews do well to give their zeros and pictures different names beforehand: two zeros of one"
          + " name cannot be told apart afterwards.",
      "Exit code 0 if nothing differs, 1 if something does, 2 if the two cannot be joined."
    })
final class JoinCommand implements Callable<Integer> {

  /** Lines printed in full; two files that differ everywhere must not drown the rest. */
  private static final int MOST_LINES = 200;

  @ParentCommand private FerruleCommand parent;

  @Parameters(index = "0", paramLabel = "ONE", description = "A job file.")
  private Path one;

  @Parameters(index = "1", paramLabel = "OTHER", description = "A job file of the same site.")
  private Path other;

  @Option(
      names = "--into",
      paramLabel = "JOB",
      required = true,
      description = "The job file to make.")
  private Path into;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  JoinCommand() {}

  @Override
  public Integer call() throws BadInputException {
    Terminal terminal = parent.terminal();
    terminal.progress("Joining " + one + " and " + other);
    try {
      JoinOutcome outcome = JobFile.join(one, other, into, Clock.systemUTC(), new SecureRandom());
      terminal.progressDone();
      print(terminal.out(), outcome);
      return outcome.conflicts().isEmpty() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  private void print(PrintWriter out, JoinOutcome outcome) {
    for (JoinOutcome.Joined file : outcome.files()) {
      out.println(file.name() + ": " + OutcomeText.count(file.entries(), "entry", "entries"));
    }
    out.println(
        into
            + ": "
            + OutcomeText.count(outcome.entries(), "entry", "entries")
            + "; "
            + (outcome.shared() == 1
                ? "1 was in both and stands once"
                : outcome.shared() + " were in both and stand once"));
    for (String note : outcome.notes()) {
      Lines.say(out, "Clocks: " + note);
    }
    int conflicts = outcome.conflicts().size();
    if (conflicts == 0) {
      out.println("Nothing is said differently in the two");
    } else {
      out.println(
          conflicts == 1
              ? "1 thing is said differently in the two; judge lists it until it is settled"
              : conflicts
                  + " things are said differently in the two; judge lists them until they are"
                  + " settled");
      outcome.conflicts().stream()
          .limit(MOST_LINES)
          .forEach(conflict -> Lines.say(out, "  " + conflict.line()));
      if (conflicts > MOST_LINES) {
        out.println("  ... and " + (conflicts - MOST_LINES) + " more; judge --all lists all");
      }
    }
    out.flush();
  }
}
