package ferrule.store.job;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Keeps what the joined files held, as differences from the entries that hold it now, and tells it
 * again.
 */
final class OriginTable {

  private static final int BATCH = 1000;

  private final Connection connection;

  OriginTable(Connection connection) {
    this.connection = connection;
  }

  /**
   * Stores origins; must be called inside a transaction.
   *
   * @param origins by rising head
   * @param now all entries of the log they are in, in order
   */
  void write(List<Origin> origins, List<Entry> now) throws SQLException {
    try (PreparedStatement joined =
            connection.prepareStatement(
                "INSERT INTO joined (number, head, entries) VALUES (?, ?, ?)");
        PreparedStatement insert =
            connection.prepareStatement(
                "INSERT INTO origin (joined, place, entry, supersedes, id, intake, file, row,"
                    + " entered_at, why) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
      int number = 0;
      for (Origin origin : origins) {
        number++;
        joined.setInt(1, number);
        joined.setString(2, origin.head());
        joined.setInt(3, origin.entries().size());
        joined.executeUpdate();
        for (int i = 0; i < origin.entries().size(); i++) {
          Entry was = origin.entries().get(i);
          int place = origin.heldBy().get(i);
          Entry is = now.get(place - 1);
          insert.setInt(1, number);
          insert.setInt(2, i + 1);
          insert.setInt(3, place);
          insert.setLong(4, was.supersedes());
          text(insert, 5, was.id(), is.id());
          text(insert, 6, was.intake(), is.intake());
          text(insert, 7, was.file(), is.file());
          if (was.row() == is.row()) {
            insert.setNull(8, Types.INTEGER);
          } else {
            insert.setLong(8, was.row());
          }
          text(insert, 9, was.enteredAt(), is.enteredAt());
          text(insert, 10, was.why(), is.why());
          insert.addBatch();
          if ((i + 1) % BATCH == 0) {
            insert.executeBatch();
          }
        }
        insert.executeBatch();
      }
    }
  }

  private static void text(PreparedStatement insert, int at, String was, String is)
      throws SQLException {
    if (was.equals(is)) {
      insert.setNull(at, Types.VARCHAR);
    } else {
      insert.setString(at, was);
    }
  }

  /**
   * Tells all origins again.
   *
   * @param now all entries of the log, in order
   * @throws DamagedEntryException if one does not give its head any more
   */
  List<Origin> read(List<Entry> now) throws SQLException {
    List<Origin> origins = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet joined =
            statement.executeQuery("SELECT number, head, entries FROM joined ORDER BY number")) {
      while (joined.next()) {
        Origin origin = read(joined.getInt(1), joined.getString(2), now);
        if (origin.entries().size() != joined.getInt(3) || !origin.isWhole()) {
          throw new DamagedEntryException(
              "a joined file that does not give its head any more: " + origin.head());
        }
        origins.add(origin);
      }
    }
    return origins;
  }

  private Origin read(int number, String head, List<Entry> now) throws SQLException {
    List<Entry> entries = new ArrayList<>();
    List<Integer> heldBy = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT entry, supersedes, id, intake, file, row, entered_at, why FROM origin"
                + " WHERE joined = ? ORDER BY place")) {
      select.setInt(1, number);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          int place = rows.getInt(1);
          if (place < 1 || place > now.size()) {
            throw new DamagedEntryException("a joined file with an entry that is not there");
          }
          Entry is = now.get(place - 1);
          long row = rows.getLong(6);
          boolean sameRow = rows.wasNull();
          entries.add(
              new Entry(
                  entries.size() + 1L,
                  or(rows.getString(3), is.id()),
                  is.kind(),
                  is.name(),
                  is.content(),
                  or(rows.getString(4), is.intake()),
                  or(rows.getString(5), is.file()),
                  sameRow ? is.row() : row,
                  or(rows.getString(7), is.enteredAt()),
                  rows.getLong(2),
                  or(rows.getString(8), is.why())));
          heldBy.add(place);
        }
      }
    }
    return new Origin(head, entries, heldBy);
  }

  private static String or(@Nullable String was, String is) {
    return was == null ? is : was;
  }
}
