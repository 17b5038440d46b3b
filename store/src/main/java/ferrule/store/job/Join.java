package ferrule.store.job;

import ferrule.core.Problem;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.random.RandomGenerator;

/**
 * Joins two logs to a third. What is written follows from the two alone: the same two give the same
 * entries and the same head, whichever comes first, whoever joins them, and when.
 */
final class Join {

  private final JoinedLog first;
  private final JoinedLog second;
  private final JoinMerge merge;
  private final List<JoinConflict> conflicts;

  /**
   * Compares two logs.
   *
   * @throws JobFileException if they are not to be joined
   */
  Join(JoinedLog one, JoinedLog other) throws JobFileException {
    if (one.head().equals(other.head())) {
      throw new JobFileException(
          new Problem(
              other.shown(),
              0,
              "",
              "a job file with another history than " + one.shown(),
              "the same, entry by entry",
              "there is nothing to join: go on with either of them"));
    }
    var refusal = SameSite.refusal(one, other);
    if (refusal.isPresent()) {
      throw new JobFileException(refusal.get());
    }
    boolean inOrder = one.head().compareTo(other.head()) < 0;
    this.first = inOrder ? one : other;
    this.second = inOrder ? other : one;
    try {
      this.merge = new JoinMerge(first.entries(), second.entries());
    } catch (DamagedEntryException e) {
      throw new JobFileException(
          new Problem(
              other.shown(),
              0,
              "",
              "entries as " + one.shown() + " holds them",
              String.valueOf(e.getMessage()),
              "one of the two was changed outside Ferrule: go back to a copy"),
          e);
    }
    this.conflicts = JoinConflicts.find(merge, first, second);
  }

  /** What to tell the user. */
  JoinOutcome outcome(JoinedLog one, JoinedLog other, StoredJob joined, Instant now) {
    List<JoinOutcome.Joined> files = new ArrayList<>();
    for (JoinedLog log : List.of(one, other)) {
      files.add(new JoinOutcome.Joined(log.shown(), log.entries().size(), log.head()));
    }
    return new JoinOutcome(
        files,
        joined.entries(),
        merge.shared(),
        conflicts.stream().map(JoinConflict::problem).toList(),
        JoinClocks.notes(merge, one, other, now),
        joined.head());
  }

  /** Writes the joined log into an empty job file; must be called inside a transaction. */
  void write(EntryLog log, Connection connection) throws SQLException {
    List<Entry> merged = merge.merged();
    try (EntryLog.Appender appender = log.new Appender()) {
      for (Entry entry : merged) {
        append(appender, entry);
      }
      append(appender, closing(merged));
      appender.flush();
    }
    new OriginTable(connection).write(origins(), merged);
  }

  private static void append(EntryLog.Appender appender, Entry entry) throws SQLException {
    appender.append(
        entry.id(),
        EntryKind.ofWord(entry.kind()),
        entry.name(),
        entry.content(),
        Entry.digest(entry.kind(), entry.content()),
        entry.intake(),
        entry.file(),
        entry.row(),
        entry.enteredAt(),
        entry.supersedes(),
        entry.why());
  }

  /**
   * The entry of the join itself. It follows from the files: its time is that of the latest entry,
   * its id follows the greatest, and what is random in an id comes from the heads.
   */
  private Entry closing(List<Entry> merged) {
    String greatest = merged.stream().map(Entry::id).max(Comparator.naturalOrder()).orElse("");
    byte[] heads = Entry.digest(first.head(), second.head());
    RandomGenerator fromHeads = () -> ByteBuffer.wrap(heads).getLong();
    EntryIds ids = new EntryIds(() -> Instant.EPOCH, fromHeads);
    ids.continueAfter(greatest);
    String id = ids.next();
    JoinContent content =
        new JoinContent(
            List.of(
                new JoinContent.Source(first.head(), first.entries().size()),
                new JoinContent.Source(second.head(), second.entries().size())),
            conflicts,
            problems());
    return new Entry(
        merged.size() + 1L,
        id,
        EntryKind.JOIN.word(),
        "",
        content.encode(),
        id,
        "",
        0,
        JoinClocks.latestEntered(merged).toString(),
        0,
        "");
  }

  private List<Problem> problems() {
    Map<String, Set<Problem>> byFile = new TreeMap<>();
    for (JoinedLog log : List.of(first, second)) {
      log.open()
          .problems()
          .forEach(p -> byFile.computeIfAbsent(p.file(), k -> new LinkedHashSet<>()).add(p));
    }
    return byFile.values().stream().flatMap(Set::stream).toList();
  }

  /** The two files, and what they were joined of themselves, by rising head, each once. */
  private List<Origin> origins() {
    Map<String, Origin> byHead = new TreeMap<>();
    for (JoinedLog log : List.of(first, second)) {
      List<Integer> places = log.entries().stream().map(merge::place).toList();
      byHead.put(log.head(), new Origin(log.head(), log.entries(), places));
      for (Origin origin : log.origins()) {
        byHead.putIfAbsent(
            origin.head(),
            new Origin(
                origin.head(),
                origin.entries(),
                origin.heldBy().stream().map(at -> places.get(at - 1)).toList()));
      }
    }
    return List.copyOf(byHead.values());
  }

  /**
   * Joins two job files to a new one.
   *
   * @param into must not exist
   * @param now by this machine's clock, to tell clocks that disagree
   */
  static JoinOutcome join(
      JobFile one, JobFile other, Path into, Instant now, RandomGenerator random)
      throws JobFileException {
    JoinedLog log = one.readLog();
    JoinedLog otherLog = other.readLog();
    Join join = new Join(log, otherLog);
    StoredJob joined =
        NewFile.make(
            into,
            random,
            "choose another name: a join makes a new file and changes none",
            growing -> JobFile.fill(growing, into, join, List.of(one, other)));
    return join.outcome(log, otherLog, joined, now);
  }
}
