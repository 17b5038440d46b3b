package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.LongConsumer;
import java.util.random.RandomGenerator;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * A job file: SQLite in WAL mode with full sync, holding one append-only, hash-chained log. Written
 * by one at a time; a second writer waits a few seconds and is then refused.
 */
public final class JobFile implements AutoCloseable {

  /** Marks an SQLite file as a job file: "FERR". */
  private static final int APPLICATION_ID = 0x46455252;

  /** The newest schema that this version of Ferrule knows; one more with each migration. */
  private static final int SCHEMA = 3;

  private static final int PATIENCE_MS = 3000;
  private static final byte[] SQLITE_MARK = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  /** Length of the header of an SQLite file, and where in it the application's id stands. */
  private static final int HEADER_LENGTH = 100;

  private static final int APPLICATION_ID_AT = 68;

  private final Path path;
  private final Connection connection;
  private final InstantSource clock;
  private final RandomGenerator random;

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
    if (Files.exists(path)) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a name that is not taken",
              "a file of this name",
              "choose another name, or add to it with ferrule add"));
    }
    Path growing =
        path.resolveSibling("." + path.getFileName() + "." + Long.toHexString(random.nextLong()));
    try {
      AddOutcome outcome;
      try (JobFile file = connect(growing, path, clock, random)) {
        file.migrate();
        outcome = file.add(first, Optional.empty(), progress);
        file.run("PRAGMA wal_checkpoint(TRUNCATE)");
      }
      Files.move(growing, path);
      return outcome;
    } catch (FileAlreadyExistsException e) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a name that is not taken",
              "a file of this name",
              "choose another name"),
          e);
    } catch (IOException e) {
      throw cannotWrite(path, e);
    } catch (SQLException e) {
      throw translate(path, e);
    } finally {
      remove(growing);
    }
  }

  private static void remove(Path growing) {
    for (String ending : new String[] {"", "-wal", "-shm", "-journal"}) {
      try {
        Files.deleteIfExists(growing.resolveSibling(growing.getFileName() + ending));
      } catch (IOException e) {
        // A hidden leftover harms nobody; the real failure is on its way to the user.
      }
    }
  }

  /**
   * Opens a job file, bringing an older one up to date first.
   *
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  public static JobFile open(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    if (!Files.isRegularFile(path)) {
      throw new JobFileException(
          new Problem(
              path.toString(), 0, "", "a job file", "no file", "make one with ferrule new"));
    }
    byte[] header = header(path);
    if (header.length < HEADER_LENGTH
        || !Arrays.equals(header, 0, SQLITE_MARK.length, SQLITE_MARK, 0, SQLITE_MARK.length)) {
      throw notAJobFile(path, "another kind of file");
    }
    // Before SQLite gets hold of it: to open another program's file would change its journal mode.
    if (ByteBuffer.wrap(header).getInt(APPLICATION_ID_AT) != APPLICATION_ID) {
      throw notAJobFile(path, "another program's database");
    }
    try {
      JobFile file = connect(path, path, clock, random);
      boolean opened = false;
      try {
        file.check();
        opened = true;
        return file;
      } finally {
        if (!opened) {
          file.close();
        }
      }
    } catch (SQLException e) {
      throw translate(path, e);
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

  private void check() throws SQLException, JobFileException {
    int schema = pragma("user_version");
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
    if (schema < SCHEMA) {
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
          throw translate(path, sql);
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
        EntryLog log = new EntryLog(connection, new EntryIds(clock, random), clock);
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
      throw translate(path, e);
    } catch (DamagedEntryException e) {
      throw damaged(path, e);
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
    return loadOpen().stored();
  }

  /**
   * Reads the whole job with the texts of its papers, checking the chain of hashes on the way.
   *
   * @throws JobFileException if the file cannot be read or was changed outside Ferrule
   */
  public OpenJob loadOpen() throws JobFileException {
    try {
      return StoredJobReader.readOpen(new EntryLog(connection, new EntryIds(clock, random), clock));
    } catch (SQLException e) {
      throw translate(path, e);
    } catch (DamagedEntryException e) {
      throw damaged(path, e);
    }
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
      OpenLog.write(new EntryLog(connection, new EntryIds(clock, random), clock), out, most);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (SQLException e) {
      throw translate(path, e);
    } catch (DamagedEntryException e) {
      throw damaged(path, e);
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
      throw translate(path, e);
    } catch (DamagedEntryException e) {
      throw damaged(path, e);
    }
  }

  @Override
  public void close() throws JobFileException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw translate(path, e);
    }
  }

  private static JobFileException notAJobFile(Path path, String found) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "a job file",
            found,
            "make one with ferrule new JOB --from DIR"));
  }

  private static JobFileException damaged(Path path, DamagedEntryException e) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "entries as they were written",
            String.valueOf(e.getMessage()),
            "the file was changed outside Ferrule or is damaged: go back to a copy"),
        e);
  }

  private static JobFileException cannotWrite(Path path, IOException e) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "a place that can be written",
            String.valueOf(e.getMessage()),
            "check folder, rights and space"),
        e);
  }

  private static JobFileException translate(Path path, SQLException e) {
    String file = path.toString();
    SQLiteErrorCode code =
        e instanceof SQLiteException sqlite
            ? sqlite.getResultCode()
            : SQLiteErrorCode.getErrorCode(e.getErrorCode() & 0xFF);
    if (code == SQLiteErrorCode.SQLITE_IOERR_SHMSIZE) {
      code = SQLiteErrorCode.SQLITE_FULL; // no room for the index of the write-ahead log
    }
    Problem problem =
        switch (SQLiteErrorCode.getErrorCode(code.code & 0xFF)) {
          case SQLITE_BUSY, SQLITE_LOCKED ->
              new Problem(
                  file,
                  0,
                  "",
                  "a job file that nobody else is writing",
                  "another writer at work",
                  "wait until it has finished and try again; nothing was changed");
          case SQLITE_FULL ->
              new Problem(
                  file,
                  0,
                  "",
                  "space on the disk",
                  "a full disk",
                  "make room and try again; nothing was changed");
          case SQLITE_NOTADB ->
              new Problem(
                  file,
                  0,
                  "",
                  "a job file",
                  "another kind of file",
                  "make one with ferrule new JOB --from DIR");
          case SQLITE_CORRUPT ->
              new Problem(
                  file, 0, "", "a whole job file", "a damaged one", "go back to a copy of it");
          case SQLITE_ERROR, SQLITE_SCHEMA, SQLITE_MISMATCH ->
              new Problem(
                  file,
                  0,
                  "",
                  "the table of entries as Ferrule made it",
                  String.valueOf(e.getMessage()),
                  "the file was changed outside Ferrule or is damaged: go back to a copy");
          case SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_PERM ->
              new Problem(
                  file,
                  0,
                  "",
                  "a file and folder that may be written",
                  "no right to write",
                  "check the rights, or work on a copy elsewhere");
          default ->
              new Problem(
                  file,
                  0,
                  "",
                  "a disk that works",
                  String.valueOf(e.getMessage()),
                  "check space, rights and the disk; nothing was changed");
        };
    return new JobFileException(problem, e);
  }

  /** Lower-case hex of a hash. */
  static String hex(byte[] hash) {
    return Sha256.hex(hash);
  }
}
