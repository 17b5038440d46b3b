package ferrule.store.job;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/** Tells a log's entries with who handed them in and what corrected them. */
final class History {

  private record Correction(long seq, String why) {}

  private static final Correction NONE = new Correction(0, "");

  private final Map<Long, Correction> corrected = new HashMap<>();
  private final Map<String, String> handedInBy = new HashMap<>();
  private final Map<Long, String> before = new HashMap<>();

  private History(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "SELECT supersedes, seq, why FROM entry WHERE supersedes IS NOT NULL")) {
      while (rows.next()) {
        corrected.put(
            rows.getLong(1), new Correction(rows.getLong(2), String.valueOf(rows.getString(3))));
      }
    }
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery("SELECT id, content FROM entry WHERE kind = 'intake'")) {
      while (rows.next()) {
        String by = EntryCodec.flat(String.valueOf(rows.getString(2))).getOrDefault("by", "");
        if (!by.isEmpty()) {
          handedInBy.put(String.valueOf(rows.getString(1)), by);
        }
      }
    }
  }

  static void tell(
      Connection connection, EntryLog log, HistoryFilter filter, Consumer<HistoryEntry> told)
      throws SQLException {
    History history = new History(connection);
    log.readAll(
        entry -> {
          EntryKind kind = EntryKind.ofWord(entry.kind());
          Map<String, String> values = EntryCodec.flat(entry.content());
          if (history.corrected.containsKey(entry.seq())) {
            history.before.put(entry.seq(), entry.content());
          }
          if (kind == EntryKind.JOIN) {
            tellOf(JoinContent.decode(entry.content()), values);
          }
          if (filter.asksFor(entry, kind, values)) {
            told.accept(history.told(entry, values));
          }
        });
  }

  private static void tellOf(JoinContent join, Map<String, String> values) {
    values.put(
        "entries",
        join.of().stream()
            .map(source -> Long.toString(source.entries()))
            .collect(Collectors.joining(" and ")));
    values.put("conflicts", Integer.toString(join.conflicts().size()));
  }

  private HistoryEntry told(Entry entry, Map<String, String> values) {
    Correction correction = corrected.getOrDefault(entry.seq(), NONE);
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
        handedInBy.getOrDefault(entry.intake(), ""),
        entry.supersedes(),
        entry.why(),
        changes(entry),
        correction.seq(),
        correction.why());
  }

  private List<HistoryEntry.Change> changes(Entry entry) {
    String was = before.get(entry.supersedes());
    if (was == null) {
      return List.of();
    }
    return EntryCodec.differences(was, entry.content()).stream()
        .map(d -> new HistoryEntry.Change(d[0], d[1], d[2]))
        .toList();
  }
}
