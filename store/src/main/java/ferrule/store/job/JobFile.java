package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import java.util.random.RandomGenerator;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * A job file: SQLite in WAL mode with full sync, holding one append-only, hash-chained log. Written
 * by one at a time; a second writer waits a few seconds and is then refused.
 */
public final class JobFile implements AutoCloseable {

  /** Marks an SQLite file as a job file: "FERR". */
  private static final int APPLICATION_ID = 0x46455252;

  /** The newest schema that this version of Ferrule knows; one more with each migration. */
  private static final int SCHEMA = 4;

  /** Formats from which on there are pictures, and joined files. */
  private static final int WITH_PICTURES = 2;

  private static final int WITH_JOINS = 4;

  private static final int PATIENCE_MS = 3000;
  private static final byte[] SQLITE_MARK = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  /** Length of the header of an SQLite file, and where in it the application's id stands. */
  private static final int HEADER_LENGTH = 100;

  private static final int APPLICATION_ID_AT = 68;

  private final Path path;
  private final Connection connection;
  private final InstantSource clock;
  private final RandomGenerator random;
  private int schema;

  private JobFile(Path path, Connection connection, InstantSource clock, RandomGenerator random) {
    this.path = path;
    this.connection = connection;
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
          try (JobFile file = connect(growing, path, clock, random)) {
            file.migrate();
            AddOutcome outcome = file.add(first, Optional.empty(), progress);
            file.run("PRAGMA wal_checkpoint(TRUNCATE)");
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
    try (JobFile file = connect(growing, shown, any.clock, any.random)) {
      file.migrate();
      file.run("BEGIN IMMEDIATE");
      join.write(file.log(), file.connection);
      for (JobFile source : sources) {
        if (source.schema >= WITH_PICTURES) {
          new PictureTable(file.connection).copyFrom(new PictureTable(source.connection));
        }
      }
      file.run("COMMIT");
      file.run("PRAGMA wal_checkpoint(TRUNCATE)");
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
    return open(path, clock, random, true);
  }

  /**
   * Opens a job file to read its log, and leaves an older one as it is. Only {@link #history},
   * {@link #check} and {@link #backup} work on it.
   *
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  public static JobFile openAsIs(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    return open(path, clock, random, false);
  }

  private static JobFile open(
      Path path, InstantSource clock, RandomGenerator random, boolean upToDate)
      throws JobFileException {
    if (!Files.isRegularFile(path)) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a job file",
              Files.isDirectory(path) ? "a folder" : "no file",
              "make one with ferrule new"));
    }
    byte[] header = header(path);
    if (header.length < HEADER_LENGTH
        || !Arrays.equals(header, 0, SQLITE_MARK.length, SQLITE_MARK, 0, SQLITE_MARK.length)) {
      throw Refusals.notAJobFile(path, "another kind of file");
    }
    // Before SQLite gets hold of it: to open another program's file would change its journal mode.
    if (ByteBuffer.wrap(header).getInt(APPLICATION_ID_AT) != APPLICATION_ID) {
      throw Refusals.notAJobFile(path, "another program's database");
    }
    try {
      JobFile file = connect(path, path, clock, random);
      boolean opened = false;
      try {
        file.admit(upToDate);
        opened = true;
        return file;
      } finally {
        if (!opened) {
          file.close();
        }
      }
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    }
  }

  private static byte[] header(Path path) throws JobFileException {
    try (InputStream in = Files.newInputStream(path)) {
      return in.readNBytes(HEADER_LENGTH);
    } catch (IOException e) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a file that can be read",
              String.valueOf(e.getMessage()),
              "check file and disk"),
          e);
    }
  }

  private static JobFile connect(
      Path onDisk, Path shown, InstantSource clock, RandomGenerator random) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setBusyTimeout(PATIENCE_MS);
    config.enforceForeignKeys(true);
    SQLiteDataSource source = new SQLiteDataSource(config);
    // As a URI: in a plain name the driver would take what follows a "?" for options.
    source.setUrl("jdbc:sqlite:" + onDisk.toAbsolutePath().toUri());
    return new JobFile(shown, source.getConnection(), clock, random);
  }

  private void admit(boolean upToDate) throws SQLException, JobFileException {
    schema = pragma("user_version");
    if (schema > SCHEMA) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a job file up to format " + SCHEMA,
              "format " + schema,
              "open it with the Ferrule that wrote it, or a newer one"));
    }
    if (upToDate && schema < SCHEMA) {
      migrate();
    }
  }

  private void migrate() throws SQLException, JobFileException {
    try {
      Flyway.configure(JobFile.class.getClassLoader())
          .dataSource(new OneConnection(connection))
          .locations("classpath:ferrule/store/migrations")
          .load()
          .migrate();
    } catch (FlywayException e) {
      for (Throwable cause = e.getCause(); cause != null; cause = cause.getCause()) {
        if (cause instanceof SQLException sql) {
          throw Refusals.translate(path, sql);
        }
      }
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a job file that can be brought up to date",
              String.valueOf(e.getMessage()),
              "work on a copy of it"),
          e);
    }
    connection.setAutoCommit(true);
    run("PRAGMA application_id = " + APPLICATION_ID);
    run("PRAGMA user_version = " + SCHEMA);
    schema = SCHEMA;
  }

  private int pragma(String name) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery("PRAGMA " + name)) {
      return result.next() ? result.getInt(1) : 0;
    }
  }

  private void run(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
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
    try {
      // In so many words: the driver's own commit begins the next transaction at once, and fails,
      // with everything stored, if another writer is quicker.
      run("BEGIN IMMEDIATE");
      boolean committed = false;
      try {
        EntryLog log = log();
        AddOutcome outcome = new Intake(log, supersede, progress).take(batch);
        new PictureTable(connection).keep(batch.pictures());
        run("COMMIT");
        committed = true;
        return outcome;
      } finally {
        if (!committed) {
          rollBack();
        }
      }
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } catch (DamagedEntryException e) {
      throw Refusals.damaged(path, e);
    }
  }

  private EntryLog log() {
    return new EntryLog(connection, new EntryIds(clock, random), clock);
  }

  /** Reads the log as it is to be joined. */
  JoinedLog readLog() throws JobFileException {
    return read(
        () -> {
          List<Entry> entries = new ArrayList<>();
          OpenMatters open = new OpenMatters();
          EntryLog log = log();
          log.readAll(
              entry -> {
                open.see(entry);
                entries.add(entry);
              });
          return new JoinedLog(
              path.toString(), entries, hex(log.lastHash()), open, origins(entries));
        });
  }

  private List<Origin> origins(List<Entry> entries) throws SQLException {
    return schema < WITH_JOINS ? List.of() : new OriginTable(connection).read(entries);
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
    return read(
        () -> {
          EntryLog log = log();
          History.tell(connection, log, filter, told);
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
    return read(
        () -> {
          FileCheck.integrity(connection);
          StoredJob stored = StoredJobReader.read(log(), path.toString());
          List<Entry> entries = new ArrayList<>();
          log().readAll(entries::add);
          int pictures = 0;
          if (schema >= WITH_PICTURES) {
            PictureTable table = new PictureTable(connection);
            for (String sha256 : table.hashes()) {
              table.find(sha256);
              pictures++;
            }
          }
          return new FileCheck(
              schema,
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
          try (PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
            copy.setString(1, growing.toAbsolutePath().toString());
            copy.execute();
          }
          try (FileChannel channel = FileChannel.open(growing, StandardOpenOption.WRITE)) {
            channel.force(true);
          }
          try (JobFile copied = connect(growing, path, clock, random)) {
            copied.admit(false);
            return copied.check();
          }
        });
  }

  @FunctionalInterface
  private interface Reading<T> {
    T read() throws SQLException;
  }

  /** Reads at one moment of the log, whatever others write meanwhile. */
  private <T> T read(Reading<T> reading) throws JobFileException {
    try {
      run("BEGIN");
      try {
        return reading.read();
      } finally {
        rollBack();
      }
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } catch (DamagedEntryException e) {
      throw Refusals.damaged(path, e);
    }
  }

  private void rollBack() {
    try {
      run("ROLLBACK");
    } catch (SQLException e) {
      // SQLite has rolled back by itself, as it does on a full disk; the reason is on its way.
    }
  }

  /**
   * Reads the whole job, checking the chain of hashes on the way.
   *
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  public StoredJob load() throws JobFileException {
    try {
      return StoredJobReader.read(log(), path.toString());
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } catch (DamagedEntryException e) {
      throw Refusals.damaged(path, e);
    }
  }

  /**
   * The bytes of a picture that is kept with the job; empty if there is none of this hash.
   *
   * @param sha256 hash of the bytes, as a grade names it
   * @throws JobFileException if the file cannot be read, or holds other bytes under this hash
   */
  public Optional<byte[]> picture(String sha256) throws JobFileException {
    try {
      return new PictureTable(connection).find(sha256);
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } catch (DamagedEntryException e) {
      throw Refusals.damaged(path, e);
    }
  }

  @Override
  public void close() throws JobFileException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    }
  }

  /** Lower-case hex of a hash. */
  static String hex(byte[] hash) {
    return Sha256.hex(hash);
  }
}
