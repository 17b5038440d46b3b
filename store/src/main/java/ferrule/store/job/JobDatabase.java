package ferrule.store.job;

import ferrule.core.Problem;
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
import java.util.Arrays;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** The database in a job file: its marks, its format and its transactions. */
final class JobDatabase implements AutoCloseable {

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
  private int format;

  private JobDatabase(Path path, Connection connection) {
    this.path = path;
    this.connection = connection;
  }

  /** What is done in one transaction. */
  @FunctionalInterface
  interface Work<T> {
    /** Does it. */
    T work() throws SQLException, JobFileException;
  }

  /**
   * Makes an empty one of the newest format.
   *
   * @param growing where
   * @param shown the name to show in problems
   */
  static JobDatabase blank(Path growing, Path shown) throws SQLException, JobFileException {
    JobDatabase made = connect(growing, shown);
    boolean whole = false;
    try {
      made.migrate();
      whole = true;
      return made;
    } finally {
      if (!whole) {
        made.close();
      }
    }
  }

  /**
   * Opens one.
   *
   * @param upToDate whether one of an older format is brought up to date
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  static JobDatabase open(Path path, boolean upToDate) throws JobFileException {
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
      JobDatabase database = connect(path, path);
      boolean opened = false;
      try {
        database.admit(upToDate);
        opened = true;
        return database;
      } finally {
        if (!opened) {
          database.close();
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

  private static JobDatabase connect(Path onDisk, Path shown) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setBusyTimeout(PATIENCE_MS);
    config.enforceForeignKeys(true);
    SQLiteDataSource source = new SQLiteDataSource(config);
    // As a URI: in a plain name the driver would take what follows a "?" for options.
    source.setUrl("jdbc:sqlite:" + onDisk.toAbsolutePath().toUri());
    return new JobDatabase(shown, source.getConnection());
  }

  private void admit(boolean upToDate) throws SQLException, JobFileException {
    format = pragma("user_version");
    if (format > SCHEMA) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a job file up to format " + SCHEMA,
              "format " + format,
              "open it with the Ferrule that wrote it, or a newer one"));
    }
    if (upToDate && format < SCHEMA) {
      migrate();
    }
  }

  private void migrate() throws SQLException, JobFileException {
    try {
      Flyway.configure(JobDatabase.class.getClassLoader())
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
    format = SCHEMA;
  }

  private int pragma(String name) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet result = statement.executeQuery("PRAGMA " + name)) {
      return result.next() ? result.getInt(1) : 0;
    }
  }

  void run(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  Connection connection() {
    return connection;
  }

  int format() {
    return format;
  }

  boolean hasPictures() {
    return format >= WITH_PICTURES;
  }

  boolean hasJoins() {
    return format >= WITH_JOINS;
  }

  /** Does some writing in one transaction: all of it is stored, or nothing. */
  <T> T writing(Work<T> work) throws SQLException, JobFileException {
    // In so many words: the driver's own commit begins the next transaction at once, and fails,
    // with everything stored, if another writer is quicker.
    run("BEGIN IMMEDIATE");
    boolean committed = false;
    try {
      T done = work.work();
      run("COMMIT");
      committed = true;
      return done;
    } finally {
      if (!committed) {
        rollBack();
      }
    }
  }

  /** Reads at one moment, whatever others write meanwhile. */
  <T> T reading(Work<T> work) throws SQLException, JobFileException {
    run("BEGIN");
    try {
      return work.work();
    } finally {
      rollBack();
    }
  }

  private void rollBack() {
    try {
      run("ROLLBACK");
    } catch (SQLException e) {
      // SQLite has rolled back by itself, as it does on a full disk; the reason is on its way.
    }
  }

  /** Puts all that was written into the file itself. */
  void settle() throws SQLException {
    run("PRAGMA wal_checkpoint(TRUNCATE)");
  }

  /** Writes what is there at this moment to a file of its own, and has it reach the disk. */
  void copyTo(Path file) throws SQLException, IOException {
    try (PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
      copy.setString(1, file.toAbsolutePath().toString());
      copy.execute();
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
