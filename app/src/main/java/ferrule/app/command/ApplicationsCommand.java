package ferrule.app.command;

import ferrule.app.ApplicationsText;
import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.Terminal;
import ferrule.core.Problem;
import ferrule.core.application.Application;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.JobApplications;
import ferrule.core.application.ShippedApplications;
import ferrule.core.plant.Link;
import ferrule.core.trust.Judge;
import ferrule.record.data.ApplicationsJson;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule applications JOB|DIR}. */
@Command(
    name = "applications",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Say which Ethernet, Fibre Channel and access applications the links carry, which not, by how"
          + " much and what decides: most loss, least loss (overload) or length.",
      "Takes the measured loss where readings are believed, else the expected loss, and says which."
          + " Applications that the job requires are marked as wanted.",
      "Exit code 0 if every link carries what the job wants, 1 if not, 2 if a part of the input"
          + " could not be used."
    })
final class ApplicationsCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB|DIR", description = "A job file or a job folder.")
  private Path input;

  @Option(
      names = "--link",
      paramLabel = "LINK",
      description = "The page of one link: every limit with its source.")
  private @Nullable String link;

  @Option(
      names = "--application",
      paramLabel = "NAME",
      description = "One application only, such as 10GBASE-SR, 8GFC or B+.")
  private @Nullable String application;

  @Option(names = "--json", description = "One JSON document.")
  private boolean json;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  ApplicationsCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    List<Application> known = ShippedApplications.all();
    String name = application;
    if (name != null && known.stream().noneMatch(a -> a.isCalled(name))) {
      throw bad(
          "--application",
          "an application of which limits are held",
          name,
          "leave it out to see them all");
    }
    LoadedJob loaded = Jobs.load(input);
    String id = link;
    Link one = id == null ? null : find(loaded, id);
    JobApplications all = JobApplications.of(Judge.judge(loaded.job()), known);
    List<ApplicationCheck> shown =
        (one == null ? all.checks() : all.of(one))
            .stream().filter(c -> name == null || c.application().isCalled(name)).toList();
    if (loaded.fromFolder()) {
      terminal.problems(loaded.problems());
    }
    if (json) {
      ApplicationsJson.write(terminal.out(), all, shown);
      terminal.out().println();
    } else if (one == null) {
      ApplicationsText.table(terminal, loaded.job().requirement().title(), all, shown);
    } else {
      ApplicationsText.page(terminal, one, all, shown);
    }
    terminal.out().flush();
    if (loaded.fromFolder() && !loaded.problems().isEmpty()) {
      return ExitCode.BAD_INPUT;
    }
    return all.allWantedCarried() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  private static Link find(LoadedJob loaded, String id) throws BadInputException {
    return loaded.job().links().stream()
        .filter(l -> l.id().equals(id))
        .findFirst()
        .orElseThrow(() -> bad("--link", "a link of the schedule", id, "look in links.csv"));
  }

  private static BadInputException bad(
      String option, String expected, String found, String remedy) {
    return new BadInputException(new Problem("", 0, option, expected, found, remedy));
  }
}
