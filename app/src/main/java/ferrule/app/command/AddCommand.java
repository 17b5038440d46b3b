package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.Jobs;
import ferrule.app.Terminal;
import ferrule.app.face.FaceTakeIn;
import ferrule.core.Problem;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.JobPaper;
import ferrule.store.intake.Purpose;
import ferrule.store.intake.TableKind;
import ferrule.store.intake.TableReader;
import ferrule.store.job.AddOutcome;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule add JOB FILE...}. */
@Command(
    name = "add",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Take in more tables, and the pictures that faces.csv lists, from the folder faces beside it.",
      "What the job holds already is recognised and not entered twice. If a file cannot be read,"
          + " nothing of the whole command goes in; if single rows have problems, the others go in"
          + " and the problems are listed."
    })
final class AddCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  private Path job;

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "FILE",
      description =
          "Tables, .csv or .xlsx, named after what they hold (readings.csv) or told by their"
              + " columns; or a job.toml.")
  private List<Path> files;

  @Option(
      names = "--supersede",
      paramLabel = "WHY",
      description =
          "Rows that differ from what was entered under the same name correct it, for this reason;"
              + " the earlier entries stay in the job's history.")
  private @Nullable String supersede;

  @Option(
      names = "--by",
      paramLabel = "NAME",
      defaultValue = "",
      description =
          "Who hands the files in; history tells it. Nothing is taken from the computer's accounts.")
  private String by = "";

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  AddCommand() {}

  @Override
  public Integer call() throws BadInputException {
    Terminal terminal = parent.terminal();
    if (supersede != null && supersede.isBlank()) {
      throw new BadInputException(
          new Problem("", 0, "--supersede", "a reason in words", "nothing", "say why"));
    }
    Read read = read(terminal);
    try (JobFile file = Jobs.open(job)) {
      Batch batch = graded(read, file, terminal);
      AddOutcome outcome =
          file.add(
              batch.by(by.strip()),
              Optional.ofNullable(supersede),
              rows -> terminal.progress(rows + " rows stored"));
      terminal.progressDone();
      return OutcomeText.print(terminal, job, outcome);
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  /**
   * What the files hold.
   *
   * @param paper a new job.toml, if there is one
   * @param tables with the folders that their files lie in
   * @param notes what a reader should know
   */
  private record Read(
      Optional<JobPaper> paper, List<FaceTakeIn.Source> tables, List<String> notes) {}

  /** With the grades of the pictures that the tables list. */
  private static Batch graded(Read read, JobFile file, Terminal terminal) throws JobFileException {
    List<FaceTakeIn.Source> sources = read.tables();
    if (sources.stream().noneMatch(s -> s.table().kind() == TableKind.FACES)) {
      return new Batch(
          read.paper(), sources.stream().map(FaceTakeIn.Source::table).toList(), read.notes());
    }
    FaceTakeIn faces =
        FaceTakeIn.grade(
            sources, file.load().job(), done -> terminal.progress(done + " pictures graded"));
    return new Batch(read.paper(), faces.tables(), faces.grades(), faces.pictures(), read.notes());
  }

  private Read read(Terminal terminal) throws BadInputException {
    List<Problem> problems = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    List<FaceTakeIn.Source> tables = new ArrayList<>();
    Optional<JobPaper> paper = Optional.empty();
    for (Path path : files) {
      terminal.progress("Reading " + path);
      String name = path.toString();
      if (name.toLowerCase(Locale.ROOT).endsWith(".toml")) {
        paper = JobFolder.readPaper(path, name, problems, notes);
      } else if (TableReader.reads(name)) {
        TableReader.Outcome outcome = TableReader.read(path, name, Optional.empty(), Purpose.STORE);
        problems.addAll(outcome.problems());
        Path folder = Optional.ofNullable(path.toAbsolutePath().getParent()).orElse(path);
        outcome.tables().forEach(table -> tables.add(new FaceTakeIn.Source(table, folder)));
      } else {
        problems.add(
            new Problem(
                name,
                0,
                "",
                "a table (.csv or .xlsx) or a job.toml",
                "another kind of file",
                "hand in one of these"));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInputException(problems);
    }
    return new Read(paper, tables, notes);
  }
}
