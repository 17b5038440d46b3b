package ferrule.store.job;

import ferrule.store.intake.Sha256;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.time.InstantSource;
import java.util.Arrays;

/** Appends to the log and reads it, keeping and checking the chain of hashes. */
final class EntryLog implements EntrySource {

  private static final int BATCH = 1000;

  private final Connection connection;
  private final EntryIds ids;
  private final InstantSource clock;
  private long lastSeq;
  private byte[] lastHash = Entry.BEFORE_THE_FIRST;
  private String greatestId = "";

  EntryLog(Connection connection, EntryIds ids, InstantSource clock) {
    this.connection = connection;
    this.ids = ids;
    this.clock = clock;
  }

  /** A second one at the same place, for appending: this one reads on what was appended. */
  EntryLog here() {
    EntryLog log = new EntryLog(connection, ids, clock);
    log.lastSeq = lastSeq;
    log.lastHash = lastHash;
    log.greatestId = greatestId;
    return log;
  }

  String newId() {
    return ids.next();
  }

  String now() {
    return clock.instant().toString();
  }

  @Override
  public long lastSeq() {
    return lastSeq;
  }

  @Override
  public byte[] lastHash() {
    return lastHash.clone();
  }

  /** How many entries the file now holds, without looking at them. */
  long count() throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("SELECT max(seq) FROM entry")) {
      return rows.next() ? rows.getLong(1) : 0;
    }
  }

  /** Whether the entry read last is still the one that it was. */
  boolean stillHolds() throws SQLException {
    if (lastSeq == 0) {
      return true;
    }
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("SELECT hash FROM entry WHERE seq = " + lastSeq)) {
      return rows.next() && Arrays.equals(rows.getBytes(1), lastHash);
    }
  }

  /**
   * Reads every entry in order, or on from the one read last.
   *
   * @throws DamagedEntryException if an entry is not what was written
   */
  @Override
  public void readAll(Visitor visitor) throws SQLException {
    MessageDigest digest = Sha256.digest();
    byte[] before = lastHash;
    long seq = lastSeq;
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "SELECT seq, id, kind, name, content, intake, file, row, entered_at,"
                    + " supersedes, why, prev, hash FROM entry WHERE seq > "
                    + lastSeq
                    + " ORDER BY seq")) {
      while (rows.next()) {
        seq++;
        Entry entry =
            new Entry(
                rows.getLong(1),
                text(rows, 2),
                text(rows, 3),
                text(rows, 4),
                text(rows, 5),
                text(rows, 6),
                text(rows, 7),
                rows.getLong(8),
                text(rows, 9),
                rows.getLong(10),
                text(rows, 11));
        byte[] hash = entry.hash(before, digest);
        if (entry.seq() != seq
            || !Arrays.equals(rows.getBytes(12), before)
            || !Arrays.equals(rows.getBytes(13), hash)) {
          throw new DamagedEntryException("entry " + seq + " with a hash that does not fit");
        }
        before = hash;
        if (entry.id().compareTo(greatestId) > 0) {
          greatestId = entry.id();
        }
        try {
          visitor.visit(entry);
        } catch (DamagedEntryException e) {
          throw new DamagedEntryException("entry " + seq + " with " + e.getMessage());
        }
      }
    }
    lastSeq = seq;
    lastHash = before;
    if (seq > 0) {
      ids.continueAfter(greatestId);
    }
  }

  /** A text; a table made by another hand may hold nothing where ours cannot. */
  private static String text(ResultSet rows, int column) throws SQLException {
    String text = rows.getString(column);
    if (text == null) {
      throw new DamagedEntryException("an entry with nothing in a column that must be filled");
    }
    return text;
  }

  /** Appends; must be called after {@link #readAll} and inside a transaction. */
  final class Appender implements AutoCloseable {
    private final PreparedStatement insert;
    private final MessageDigest digest = Sha256.digest();
    private int waiting;

    Appender() throws SQLException {
      insert =
          connection.prepareStatement(
              "INSERT INTO entry (seq, id, kind, name, content, digest, intake, file, row,"
                  + " entered_at, supersedes, why, prev, hash)"
                  + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    }

    long append(
        String id,
        EntryKind kind,
        String name,
        String content,
        byte[] contentDigest,
        String intake,
        String file,
        long row,
        String enteredAt,
        long supersedes,
        String why)
        throws SQLException {
      Entry entry =
          new Entry(
              lastSeq + 1,
              id,
              kind.word(),
              name,
              content,
              intake,
              file,
              row,
              enteredAt,
              supersedes,
              why);
      byte[] hash = entry.hash(lastHash, digest);
      insert.setLong(1, entry.seq());
      insert.setString(2, id);
      insert.setString(3, entry.kind());
      insert.setString(4, name);
      insert.setString(5, content);
      insert.setBytes(6, contentDigest);
      insert.setString(7, intake);
      insert.setString(8, file);
      insert.setLong(9, row);
      insert.setString(10, enteredAt);
      if (supersedes == 0) {
        insert.setNull(11, Types.INTEGER);
      } else {
        insert.setLong(11, supersedes);
      }
      insert.setString(12, why);
      insert.setBytes(13, lastHash);
      insert.setBytes(14, hash);
      insert.addBatch();
      if (++waiting == BATCH) {
        flush();
      }
      lastSeq = entry.seq();
      lastHash = hash;
      return entry.seq();
    }

    void flush() throws SQLException {
      if (waiting > 0) {
        insert.executeBatch();
        waiting = 0;
      }
    }

    @Override
    public void close() throws SQLException {
      insert.close();
    }
  }
}
