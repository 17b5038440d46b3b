package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Jobs;
import ferrule.app.JudgementText;
import ferrule.app.LoadedJob;
import ferrule.app.RejudgedText;
import ferrule.app.Rulebooks;
import ferrule.app.Terminal;
import ferrule.app.Wishes;
import ferrule.core.Problem;
import ferrule.core.job.Requirement;
import ferrule.core.plant.FibreId;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.Wish;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Rejudged;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.record.data.JudgementJson;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule judge JOB|DIR...}. */
@Command(
    name = "judge",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Say what stands, what does not, and what to do next.",
      "Takes job files and job folders. With --rulebook, --most, --decision or --method it says what would change if"
          + " another had been agreed.",
      "Exit code 0 if every fibre is proved, 1 if not, 2 if a part"
          + " of the input could not be used."
    })
final class JudgeCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(
      arity = "1..*",
      paramLabel = "JOB|DIR",
      description = "Job files or job folders, one or more.")
  private List<Path> inputs;

  @Option(names = "--json", description = "One JSON document a line for each job.")
  private boolean json;

  @Option(names = "--all", description = "List every fibre, doubt and action, however many.")
  private boolean all;

  @Option(
      names = "--fibre",
      paramLabel = "LINK/N",
      description = "Unfold one fibre, K014/2: its terms, its uncertainty, every attempt.")
  private @Nullable String fibre;

  @Option(
      names = "--rulebook",
      paramLabel = "NAME|FILE",
      description =
          "As if this rulebook had been agreed, shipped or a file: what would change. The job stays"
              + " as it is.")
  private @Nullable String rulebook;

  @Option(
      names = "--most",
      paramLabel = "WHAT=DB",
      description =
          "As if this were the most that a part may lose: link (a whole link), connection (inside"
              + " the link), end, splice or km. Once for each: --most link=2.0 --most splice=0.1.")
  private List<String> most = List.of();

  @Option(
      names = "--decision",
      paramLabel = "RULE",
      description = "As if this decision rule had been agreed, simple or guarded.")
  private @Nullable String decision;

  @Option(
      names = "--method",
      paramLabel = "COUNT",
      description =
          "As if zeros of this method had been agreed, one-cord, two-cord or three-cord. A limit"
              + " follows how its zero was set; zeros of another method are doubted.")
  private @Nullable String method;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  JudgeCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    UnaryOperator<Requirement> supposed = supposed();
    int worst = ExitCode.DONE;
    for (int i = 0; i < inputs.size(); i++) {
      if (i > 0 && !json) {
        terminal.out().println();
      }
      worst = Math.max(worst, judge(terminal, inputs.get(i), supposed));
      terminal.out().flush();
    }
    return worst;
  }

  private int judge(Terminal terminal, Path input, UnaryOperator<Requirement> supposed)
      throws BadInputException, IOException {
    terminal.progress("Judging " + input);
    LoadedJob loaded;
    try {
      loaded = Jobs.load(input);
    } catch (BadInputException e) {
      terminal.progressDone();
      terminal.problems(e.problems());
      if (json) {
        JudgementJson.writeUnusable(terminal.out(), input.toString(), e.problems());
        terminal.out().println();
      }
      return ExitCode.BAD_INPUT;
    }
    Judgement agreed = Judge.judge(loaded.job());
    Optional<Rejudged> rejudged =
        rulebook == null && decision == null && method == null && most.isEmpty()
            ? Optional.empty()
            : Optional.of(Rejudged.of(agreed, supposed.apply(agreed.ledger().requirement())));
    Judgement judgement = rejudged.map(Rejudged::supposed).orElse(agreed);
    terminal.progressDone();
    if (loaded.fromFolder()) {
      terminal.problems(loaded.problems());
    }
    if (rejudged.isPresent() && fibre == null) {
      print(terminal, loaded, rejudged.get());
    } else {
      print(terminal, loaded, judgement);
    }
    if (loaded.fromFolder() && !loaded.problems().isEmpty()) {
      return ExitCode.BAD_INPUT;
    }
    return judgement.allProved() && loaded.problems().isEmpty()
        ? ExitCode.DONE
        : ExitCode.NOT_ALL_PROVED;
  }

  private void print(Terminal terminal, LoadedJob loaded, Judgement judgement)
      throws BadInputException, IOException {
    if (fibre != null) {
      JudgementText.fibre(terminal, find(judgement, fibre));
    } else if (json) {
      JudgementJson.write(terminal.out(), judgement, loaded.problems(), loaded.notes(), false);
      terminal.out().println();
    } else {
      JudgementText.print(terminal, loaded, judgement, all);
    }
  }

  private void print(Terminal terminal, LoadedJob loaded, Rejudged rejudged) throws IOException {
    if (json) {
      JudgementJson.write(terminal.out(), rejudged, loaded.problems(), loaded.notes());
      terminal.out().println();
    } else {
      RejudgedText.print(terminal, rejudged, all);
    }
  }

  /** The requirement that is supposed, from the one agreed. */
  private UnaryOperator<Requirement> supposed() throws BadInputException {
    UnaryOperator<Requirement> supposed = UnaryOperator.identity();
    if (rulebook != null) {
      Rulebook other = Rulebooks.find(rulebook);
      supposed = then(supposed, requirement -> requirement.by(other));
    }
    Wish read = Wish.NONE;
    for (String one : most) {
      read = Wishes.read(read, "--most", one);
    }
    Wish wish = read;
    supposed = then(supposed, requirement -> requirement.by(wish.in(requirement.rulebook())));
    if (decision != null) {
      DecisionRule other =
          one(DecisionRule.ofWord(decision), "--decision", "simple or guarded", decision);
      supposed = then(supposed, requirement -> requirement.by(other));
    }
    if (method != null) {
      Method other =
          one(Method.ofWord(method), "--method", "one-cord, two-cord or three-cord", method);
      supposed = then(supposed, requirement -> requirement.by(other));
    }
    return supposed;
  }

  private static UnaryOperator<Requirement> then(
      UnaryOperator<Requirement> first, UnaryOperator<Requirement> second) {
    return requirement -> second.apply(first.apply(requirement));
  }

  private static <T> T one(Optional<T> found, String option, String expected, String word)
      throws BadInputException {
    return found.orElseThrow(
        () ->
            new BadInputException(
                new Problem("", 0, option, expected, word, "write one of these")));
  }

  private static FibreJudgement find(Judgement judgement, String name) throws BadInputException {
    int slash = name.lastIndexOf('/');
    Optional<FibreJudgement> found = Optional.empty();
    if (slash > 0 && name.substring(slash + 1).matches("\\d{1,6}")) {
      found =
          judgement.fibre(
              new FibreId(name.substring(0, slash), Integer.parseInt(name.substring(slash + 1))));
    }
    return found.orElseThrow(
        () ->
            new BadInputException(
                new Problem(
                    "",
                    0,
                    "--fibre",
                    "a fibre of the schedule, written LINK/N",
                    name,
                    "look in links.csv")));
  }
}
