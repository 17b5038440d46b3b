package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.Lines;
import ferrule.app.RulebookText;
import ferrule.app.Rulebooks;
import ferrule.app.Terminal;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.ShippedRulebooks;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code ferrule rulebook list|show|compare|check}. */
@Command(
    name = "rulebook",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "List the rulebooks that come with Ferrule, show one, compare two, or check an owner's own"
          + " file.",
      "Every figure is shown with standard, edition, clause and how well it is known."
    })
final class RulebookCommand implements Runnable {

  @ParentCommand private FerruleCommand parent;
  @Spec private CommandSpec spec;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  RulebookCommand() {}

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Expected an action: list, show, compare or check");
  }

  @Command(
      name = "list",
      mixinStandardHelpOptions = true,
      description = "List the rulebooks that come with Ferrule.")
  int list() throws BadInputException {
    Terminal terminal = parent.terminal();
    for (String id : ShippedRulebooks.ids()) {
      Rulebook rulebook = Rulebooks.find(id);
      int figures = RulebookText.figures(rulebook).size();
      Lines.say(
          terminal.out(),
          id
              + ": "
              + rulebook.edition()
              + "; "
              + figures
              + " figures, "
              + rulebook.figuresFromMemory()
              + " from memory");
    }
    terminal.out().flush();
    return ExitCode.DONE;
  }

  @Command(
      name = "show",
      mixinStandardHelpOptions = true,
      description = "Show every figure of a rulebook with its source.")
  int show(@Parameters(paramLabel = "ID|FILE", description = "A rulebook.") String name)
      throws BadInputException {
    RulebookText.show(parent.terminal(), Rulebooks.find(name));
    parent.terminal().out().flush();
    return ExitCode.DONE;
  }

  @Command(
      name = "check",
      mixinStandardHelpOptions = true,
      description =
          "Check an owner's own rulebook: one line for each entry that is unknown, unsound,"
              + " contradictory or said twice, and exit code 2.")
  int check(@Parameters(paramLabel = "FILE", description = "A rulebook file.") String name)
      throws BadInputException {
    Rulebook rulebook = Rulebooks.find(name);
    Lines.say(
        parent.terminal().out(),
        name
            + ": sound; rulebook "
            + rulebook.id()
            + ", "
            + RulebookText.figures(rulebook).size()
            + " figures, "
            + rulebook.figuresFromMemory()
            + " from memory");
    parent.terminal().out().flush();
    return ExitCode.DONE;
  }

  @Command(
      name = "compare",
      mixinStandardHelpOptions = true,
      description = {
        "Say in what two rulebooks differ, for a job only in what its links need.",
        "Exit code 0 if no figure differs, 1 if one does."
      })
  int compare(
      @Parameters(index = "0", paramLabel = "ID|FILE", description = "A rulebook.") String one,
      @Parameters(index = "1", paramLabel = "ID|FILE", description = "Another.") String other,
      @Option(names = "--job", paramLabel = "JOB|DIR", description = "A job file or a job folder.")
          @Nullable Path job)
      throws BadInputException {
    Rulebook first = Rulebooks.find(one);
    Rulebook second = Rulebooks.find(other);
    int differ =
        RulebookText.compare(
            parent.terminal(), first, second, job == null ? what -> true : needed(job));
    parent.terminal().out().flush();
    return differ == 0 ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  /** What a job needs of a rulebook, in the words of {@link RulebookText#figures}. */
  private static Predicate<String> needed(Path path) throws BadInputException {
    Job job = Jobs.load(path).job();
    Requirement requirement = job.requirement();
    Set<String> needed = new HashSet<>();
    for (Link link : job.links()) {
      FibreCategory category = link.category();
      String kind = category.kind().word();
      for (Wavelength wavelength : requirement.wavelengths()) {
        needed.add("fibre " + category.label() + " at " + wavelength);
      }
      if (link.connections() > 0) {
        needed.add("connection inside the link, " + kind);
      }
      if (link.splices() > 0) {
        needed.add("splice, " + kind);
      }
      if (requirement.method().endConnections() > 0) {
        needed.add("end connection, reference-grade cord, " + kind);
        needed.add("end connection, standard-grade cord, " + kind);
      }
      needed.add("pair of reference plugs, " + kind);
      needed.add("a whole link, " + kind);
      link.devices().forEach(device -> needed.add("device " + device));
    }
    return needed::contains;
  }
}
