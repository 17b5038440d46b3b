package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.LoadedJob;
import ferrule.app.Terminal;
import ferrule.app.Version;
import ferrule.app.audit.EarlierIssue;
import ferrule.app.audit.KeyFolder;
import ferrule.app.audit.RecordJob;
import ferrule.app.face.DrawnPictures;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.record.RecordException;
import ferrule.record.RecordIssue;
import ferrule.record.RecordWriter;
import ferrule.record.seal.RecordKey;
import java.io.IOException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
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
      "Issue the record for the owner: a PDF to read, all that it was made from, and a page that"
          + " checks it in a browser. The record says what is proved and what is not; it can be"
          + " issued at any time.",
      "It is signed with a key of your own, made on first use and readable by you alone. The"
          + " signature shows that nobody without the key has changed a byte since; not whose key it"
          + " is, nor when it was used, nor that the readings are true."
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

  @Option(
      names = "--key",
      paramLabel = "FILE",
      description =
          "Sign with this Ed25519 key: PEM (PKCS#8), or PKCS#12 with its password in"
              + " FERRULE_KEY_PASSWORD or typed when asked.")
  private @Nullable Path key;

  @Option(names = "--unsigned", description = "Sign nothing; the record says so.")
  private boolean unsigned;

  @Option(
      names = "--issued-at",
      paramLabel = "TIME",
      description =
          "Time of issue instead of now, ISO 8601 with offset: the same job, key and time give the"
              + " same bytes.")
  private @Nullable String issuedAt;

  @Option(
      names = "--since",
      paramLabel = "RECORD",
      description =
          "The folder of the issue before: this one gets the next number and tells of each fibre"
              + " what is otherwise since, and why.")
  private @Nullable Path since;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  RecordCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    Instant issued = issued();
    Optional<RecordKey> signer = signer();
    terminal.progress("Judging " + job);
    try (RecordJob read = RecordJob.of(job, issued)) {
      LoadedJob loaded = read.loaded();
      Judgement judgement = Judge.judge(loaded.job());
      terminal.progress("Writing the record");
      Optional<RecordIssue.Earlier> earlier =
          since == null ? Optional.empty() : Optional.of(EarlierIssue.in(since, read.log()));
      List<Problem> missing = write(read, judgement, output, issued, signer, earlier);
      terminal.progressDone();
      terminal.problems(loaded.problems());
      terminal.problems(missing);
      terminal.out().println("The record is in " + output + "; begin with record.pdf");
      terminal
          .out()
          .println(
              signer
                  .map(s -> "Signed with key " + s.fingerprint())
                  .orElse("It is not signed: whoever changes a file can change its hash as well"));
      if (!missing.isEmpty() || (loaded.fromFolder() && !loaded.problems().isEmpty())) {
        return ExitCode.BAD_INPUT;
      }
      return judgement.allProved() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
    }
  }

  private Optional<RecordKey> signer() throws BadInputException {
    if (unsigned) {
      if (key != null) {
        throw new BadInputException(
            new Problem(
                "", 0, "--key", "either a key or --unsigned", "both", "leave one of them out"));
      }
      return Optional.empty();
    }
    return Optional.of(
        key == null ? KeyFolder.own(System.getenv()) : KeyFolder.named(key, System.getenv()));
  }

  private Instant issued() throws BadInputException {
    if (issuedAt == null) {
      return now();
    }
    try {
      return OffsetDateTime.parse(issuedAt).toInstant().truncatedTo(ChronoUnit.SECONDS);
    } catch (DateTimeException e) {
      throw new BadInputException(
          new Problem(
              "",
              0,
              "--issued-at",
              "a time with offset, such as 2026-10-05T16:30:00+02:00",
              issuedAt,
              "write it so"));
    }
  }

  /** The time of issue of a record that is made now. */
  static Instant now() {
    return Instant.now().truncatedTo(ChronoUnit.SECONDS);
  }

  /** Writes the record; gives back what is wrong with its pictures. */
  static List<Problem> write(
      RecordJob read,
      Judgement judgement,
      Path output,
      Instant issuedAt,
      Optional<RecordKey> key,
      Optional<RecordIssue.Earlier> earlier)
      throws BadInputException {
    try {
      DrawnPictures pictures = new DrawnPictures(read.loaded().pictures());
      RecordWriter.write(
          new RecordIssue(
              judgement,
              read.loaded().problems(),
              read.loaded().notes(),
              issuedAt,
              Version.number(),
              pictures,
              read.log(),
              earlier),
          key,
          output);
      return pictures.problems();
    } catch (RecordException e) {
      throw new BadInputException(e.problem());
    }
  }
}
