package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.PlanJson;
import ferrule.app.PlanText;
import ferrule.app.Terminal;
import ferrule.core.Problem;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.LinkPlan;
import ferrule.core.plan.ShippedLimits;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule plan JOB|DIR}. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Before the first test, from the papers alone: limit and expected loss side by side, questions"
          + " for the owner with what each costs if it is found late, kit, end faces, crew hours and"
          + " a walking order.",
      "A folder with job.toml and links.csv is enough; cords.csv and instruments.csv are held"
          + " against them if they are there.",
      "Exit code 0 if the papers raise no question, 1 if they do, 2 if a part of the input could"
          + " not be used."
    })
final class PlanCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB|DIR", description = "A job file or a job folder.")
  private Path input;

  @Option(
      names = "--on",
      paramLabel = "DATE",
      description = "The first day of testing, 2026-10-05 (default: today, UTC).")
  private @Nullable String on;

  @Option(
      names = "--link",
      paramLabel = "LINK",
      description = "Unfold one link: every term of its limit and of its expected loss.")
  private @Nullable String link;

  @Option(names = "--all", description = "List every link, question and stop, however many.")
  private boolean all;

  @Option(names = "--json", description = "One JSON document.")
  private boolean json;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  PlanCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    LocalDate day = day();
    terminal.progress("Planning " + input);
    LoadedJob loaded = Jobs.load(input);
    JobPlan plan = JobPlan.of(loaded.job(), day, new ShippedLimits());
    terminal.progressDone();
    if (loaded.fromFolder()) {
      terminal.problems(loaded.problems());
    }
    if (link != null) {
      PlanText.link(terminal, plan, find(plan, link));
    } else if (json) {
      PlanJson.write(terminal.out(), plan);
      terminal.out().println();
    } else {
      PlanText.print(terminal, plan, all);
    }
    terminal.out().flush();
    if (loaded.fromFolder() && !loaded.problems().isEmpty()) {
      return ExitCode.BAD_INPUT;
    }
    return plan.questions().isEmpty() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  private LocalDate day() throws BadInputException {
    String text = on;
    if (text == null) {
      return LocalDate.now(Clock.systemUTC());
    }
    try {
      return LocalDate.parse(text.strip());
    } catch (DateTimeParseException e) {
      throw new BadInputException(
          new Problem(
              "", 0, "--on", "a day, year first, such as 2026-10-05", text, "write it like that"));
    }
  }

  private static LinkPlan find(JobPlan plan, String name) throws BadInputException {
    return plan.links().stream()
        .filter(l -> l.link().id().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new BadInputException(
                    new Problem(
                        "",
                        0,
                        "--link",
                        "a link of the schedule, such as "
                            + (plan.links().isEmpty() ? "K014" : plan.links().get(0).link().id()),
                        name,
                        "name one that is there")));
  }
}
