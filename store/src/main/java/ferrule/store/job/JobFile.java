package ferrule.store.job;

import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import java.util.random.RandomGenerator;

/**
 * A job file: SQLite in WAL mode with full sync, holding one append-only, hash-chained log. Written
 * by one at a time; a second writer waits a few seconds and is then refused.
 */
public final class JobFile implements AutoCloseable {

  private final Path path;
  private final JobDatabase database;
  private final InstantSource clock;
  private final RandomGenerator random;

  private JobFile(Path path, JobDatabase database, InstantSource clock, RandomGenerator random) {
    this.path = path;
    this.database = database;
    this.clock = clock;
    this.random = random;
  }

  /**
   * Makes a new job file with its first contents. The file appears under its name only when all of
   * it is stored; if anything fails there is no file.
   *
   * @param path must not exist
   * @param first must hold a paper
   * @param clock stamps the entries
   * @param random for their ids
   * @param progress told how many rows are stored, from time to time
   * @throws JobFileException if the file exists or cannot be written
   * @throws IllegalArgumentException without a paper
   */
  public static AddOutcome create(
      Path path, Batch first, InstantSource clock, RandomGenerator random, LongConsumer progress)
      throws JobFileException {
    if (first.paper().isEmpty()) {
      throw new IllegalArgumentException("A new job file needs a paper");
    }
    return NewFile.make(
        path,
        random,
        "choose another name, or add to it with ferrule add",
        growing -> {
          try (JobFile file = blank(growing, path, clock, random)) {
            AddOutcome outcome = file.add(first, Optional.empty(), progress);
            file.database.settle();
            return outcome;
          }
        });
  }

  /**
   * Joins two job files of one site, of two crews or of two ends, to a new one. The two stay as
   * they are. What both hold stands once; what they say differently is kept both and listed. The
   * new file's entries follow from the two alone, whichever comes first.
   *
   * @param one a job file
   * @param other another
   * @param into must not exist
   * @param clock this machine's, to tell clocks that disagree
   * @param random for names of files on the way
   * @throws JobFileException if one cannot be read, or they are of different sites
   */
  public static JoinOutcome join(
      Path one, Path other, Path into, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    try (JobFile first = openAsIs(one, clock, random);
        JobFile second = openAsIs(other, clock, random)) {
      return Join.join(first, second, into, clock.instant(), random);
    }
  }

  /** Fills a new file with a join. */
  static StoredJob fill(Path growing, Path shown, Join join, List<JobFile> sources)
      throws SQLException, JobFileException {
    JobFile any = sources.get(0);
    try (JobFile file = blank(growing, shown, any.clock, any.random)) {
      file.database.writing(
          () -> {
            join.write(file.log(), file.database.connection());
            for (JobFile source : sources) {
              if (source.database.hasPictures()) {
                file.pictures().copyFrom(source.pictures());
              }
            }
            return join;
          });
      file.database.settle();
      return file.load();
    }
  }

  /**
   * Opens a job file, bringing an older one up to date first.
   *
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  public static JobFile open(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    return new JobFile(path, JobDatabase.open(path, true), clock, random);
  }

  /**
   * Opens a job file to read its log, and leaves an older one as it is. Only {@link #history},
   * {@link #check} and {@link #backup} work on it.
   *
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  public static JobFile openAsIs(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    return new JobFile(path, JobDatabase.open(path, false), clock, random);
  }

  private static JobFile blank(
      Path growing, Path shown, InstantSource clock, RandomGenerator random)
      throws SQLException, JobFileException {
    return new JobFile(shown, JobDatabase.blank(growing, shown), clock, random);
  }

  /**
   * Takes in a batch in one transaction.
   *
   * @param supersede why entries of the same name with other values are corrected; empty if they
   *     are to be refused
   * @param progress told how many rows are stored, from time to time
   * @throws JobFileException if nothing could be stored
   */
  public AddOutcome add(Batch batch, Optional<String> supersede, LongConsumer progress)
      throws JobFileException {
    return writing(
        () -> {
          AddOutcome outcome = new Intake(log(), supersede, progress).take(batch);
          pictures().keep(batch.pictures());
          return outcome;
        });
  }

  /**
   * Writes in one transaction.
   *
   * @throws JobFileException if the file cannot be written; nothing was changed then
   */
  <T> T writing(JobDatabase.Work<T> work) throws JobFileException {
    return told(() -> database.writing(work));
  }

  /**
   * Reads at one moment of the log, whatever others write meanwhile.
   *
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  <T> T reading(JobDatabase.Work<T> work) throws JobFileException {
    return told(() -> database.reading(work));
  }

  /** Does something; what goes wrong with the file is told in a line that says what to do. */
  private <T> T told(JobDatabase.Work<T> work) throws JobFileException {
    try {
      return work.work();
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } catch (DamagedEntryException e) {
      throw Refusals.damaged(path, e);
    }
  }

  /** The log of this file, read from its beginning. */
  EntryLog log() {
    return new EntryLog(database.connection(), new EntryIds(clock, random), clock);
  }

  private PictureTable pictures() {
    return new PictureTable(database.connection());
  }

  /** Reads the log as it is to be joined, and makes sure that all of it can be understood. */
  JoinedLog readLog() throws JobFileException {
    return reading(
        () -> {
          EntryLog log = log();
          JobSoFar read = new JobSoFar();
          List<Entry> entries = entries(log, read);
          read.stored(log);
          JoinClocks.latestEntered(entries);
          return new JoinedLog(
              path.toString(), entries, hex(log.lastHash()), read.open(), origins(entries));
        });
  }

  /** Every entry of a log, each shown to a job that is being put together. */
  private static List<Entry> entries(EntryLog log, JobSoFar job) throws SQLException {
    List<Entry> entries = new ArrayList<>();
    log.readAll(
        entry -> {
          job.visit(entry);
          entries.add(entry);
        });
    return entries;
  }

  private List<Origin> origins(List<Entry> entries) throws SQLException {
    return database.hasJoins() ? new OriginTable(database.connection()).read(entries) : List.of();
  }

  /**
   * Tells the entries that a filter asks for, in order, with what corrected them. The chain of
   * hashes is checked on the way.
   *
   * @return the entries of the whole log, and its head
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  public HistoryEntry.Log history(HistoryFilter filter, Consumer<HistoryEntry> told)
      throws JobFileException {
    return reading(
        () -> {
          EntryLog log = log();
          History.tell(database.connection(), log, filter, told);
          return new HistoryEntry.Log(log.lastSeq(), hex(log.lastHash()));
        });
  }

  /**
   * Checks the whole file: SQLite's own check, the chain of hashes and what the entries say, every
   * picture's hash, and the heads of joined files.
   *
   * @throws JobFileException with the first thing that is wrong
   */
  public FileCheck check() throws JobFileException {
    return reading(
        () -> {
          FileCheck.integrity(database.connection());
          EntryLog log = log();
          JobSoFar read = new JobSoFar();
          List<Entry> entries = entries(log, read);
          StoredJob stored = read.stored(log);
          int pictures = 0;
          if (database.hasPictures()) {
            for (String sha256 : pictures().hashes()) {
              pictures().find(sha256);
              pictures++;
            }
          }
          return new FileCheck(
              database.format(),
              stored.entries(),
              stored.head(),
              pictures,
              origins(entries).stream().map(Origin::head).toList());
        });
  }

  /**
   * Copies the job file as it is at this moment, also while others write to it. The copy appears
   * under its name only when it is whole and was checked.
   *
   * @param to must not exist
   * @return what is in the copy
   * @throws JobFileException if this file is damaged, or the copy cannot be written
   */
  public FileCheck backup(Path to) throws JobFileException {
    return NewFile.make(
        to,
        random,
        "choose another name: a backup never overwrites a file",
        growing -> {
          database.copyTo(growing);
          try (JobFile copied =
              new JobFile(path, JobDatabase.open(growing, false), clock, random)) {
            return copied.check();
          }
        });
  }

  /**
   * Reads the whole job, checking the chain of hashes on the way.
   *
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  public StoredJob load() throws JobFileException {
    return loadWritten().stored();
  }

  /**
   * Reads the whole job with the texts of its papers, checking the chain of hashes on the way.
   *
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  public WrittenJob loadWritten() throws JobFileException {
    return reading(() -> JobSoFar.readWritten(log()));
  }

  /**
   * Writes every entry as open text, superseded ones included, checking the chain of hashes on the
   * way.
   *
   * @param out takes the lines of {@link OpenLog}; stays open
   * @param most number of entries at which to stop: those of a job that was loaded before, though
   *     another writer may have appended since
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   * @throws IOException if {@code out} fails
   */
  public void writeEntries(Writer out, long most) throws JobFileException, IOException {
    try {
      told(
          () -> {
            OpenLog.write(log(), out, most);
            return true;
          });
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /**
   * The bytes of a picture that is kept with the job; empty if there is none of this hash.
   *
   * @param sha256 hash of the bytes, as a grade names it
   * @throws JobFileException if the file cannot be read, or holds other bytes under this hash
   */
  public Optional<byte[]> picture(String sha256) throws JobFileException {
    return told(() -> pictures().find(sha256));
  }

  @Override
  public void close() throws JobFileException {
    told(
        () -> {
          database.close();
          return true;
        });
  }

  /** Lower-case hex of a hash. */
  static String hex(byte[] hash) {
    return Sha256.hex(hash);
  }
}
