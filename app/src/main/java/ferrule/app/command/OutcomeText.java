package ferrule.app.command;

import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.store.job.AddOutcome;
import ferrule.store.job.AddOutcome.FileOutcome;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Says what became of rows that were taken in. */
final class OutcomeText {

  private OutcomeText() {}

  static int print(Terminal terminal, Path job, AddOutcome outcome) {
    terminal.problems(outcome.problems());
    outcome.notes().forEach(note -> terminal.err().println("Note: " + note));
    for (FileOutcome file : outcome.files()) {
      terminal.out().println(line(file));
    }
    terminal
        .out()
        .println(
            outcome.entered() == 0
                ? "Nothing was added to " + job
                : job + " holds " + count(outcome.entered(), "new entry", "new entries"));
    terminal.out().flush();
    return outcome.problems().isEmpty() ? ExitCode.DONE : ExitCode.BAD_INPUT;
  }

  private static String line(FileOutcome file) {
    List<String> parts = new ArrayList<>();
    if (file.entered() > 0) {
      parts.add(file.entered() + " entered");
    }
    if (file.superseding() > 0) {
      parts.add(file.superseding() + " entered as corrections");
    }
    if (file.repeated() > 0) {
      parts.add(file.repeated() + " already in the job");
    }
    if (file.unused() > 0) {
      parts.add(file.unused() + " not used, see the problems");
    }
    return file.name()
        + ": "
        + count(file.rows(), "row", "rows")
        + (parts.isEmpty() ? "" : ": " + String.join(", ", parts));
  }

  static String count(long number, String one, String many) {
    return number + " " + (number == 1 ? one : many);
  }
}
