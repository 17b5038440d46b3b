package ferrule.store.job;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Consumer;

/** Tells a log's entries with what corrected them. */
final class History {

  private record Correction(long seq, String why) {}

  private History() {}

  static void tell(
      Connection connection, EntryLog log, HistoryFilter filter, Consumer<HistoryEntry> told)
      throws SQLException {
    Map<Long, Correction> corrected = corrections(connection);
    log.readAll(
        entry -> {
          EntryKind kind = EntryKind.ofWord(entry.kind());
          Map<String, String> values = EntryCodec.flat(entry.content());
          if (filter.asksFor(entry, kind, values)) {
            told.accept(
                told(entry, values, corrected.getOrDefault(entry.seq(), new Correction(0, ""))));
          }
        });
  }

  private static HistoryEntry told(Entry entry, Map<String, String> values, Correction correction) {
    return new HistoryEntry(
        entry.seq(),
        entry.id(),
        entry.kind(),
        entry.name(),
        values,
        entry.content(),
        entry.intake(),
        entry.file(),
        entry.row(),
        entry.enteredAt(),
        entry.supersedes(),
        entry.why(),
        correction.seq(),
        correction.why());
  }

  private static Map<Long, Correction> corrections(Connection connection) throws SQLException {
    Map<Long, Correction> corrected = new HashMap<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "SELECT supersedes, seq, why FROM entry WHERE supersedes IS NOT NULL")) {
      while (rows.next()) {
        corrected.put(
            rows.getLong(1), new Correction(rows.getLong(2), String.valueOf(rows.getString(3))));
      }
    }
    return corrected;
  }
}
