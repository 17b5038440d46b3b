package ferrule.app;

import ferrule.store.job.FileCheck;
import ferrule.store.job.HistoryEntry;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A history as a table for people: one entry after another, what was corrected beneath it. */
public final class HistoryText {

  private static final int WIDTH = 100;
  private static final int TIME = "2026-10-05 08:02".length();
  private static final int NUMBER = 5;
  private static final String INDENT = " ".repeat(NUMBER + 2 + TIME + 2);
  private static final int HEAD_SHOWN = 16;

  private final PrintWriter out;
  private long count;

  /** For a terminal or a pipe. */
  public HistoryText(PrintWriter out) {
    this.out = out;
  }

  /** Says what a check of the whole file found: nothing wrong, or there would be no outcome. */
  public static void checked(PrintWriter out, String job, FileCheck check) {
    out.println(job + ", format " + check.format() + ", was checked:");
    out.println("  SQLite finds no fault");
    out.println(
        "  "
            + count(check.entries(), "entry", "entries")
            + ", every hash fits; head "
            + check.head());
    if (check.pictures() > 0) {
      out.println("  " + count(check.pictures(), "picture", "pictures") + ", each under its hash");
    }
    for (String head : check.joined()) {
      out.println("  a file that was joined told again, its head fits: " + head);
    }
    out.println();
  }

  /** Prints an entry. */
  public void entry(HistoryEntry entry) {
    if (count++ == 0) {
      out.println("entry  entered, UTC      what");
    }
    String number = String.format(Locale.ROOT, "%" + NUMBER + "d", entry.seq());
    say(number + "  " + time(entry.enteredAt()) + "  ", HistoryWords.of(entry));
    String from = from(entry);
    if (!from.isEmpty()) {
      say(INDENT + "  ", from);
    }
    if (entry.supersedes() != 0) {
      say(
          INDENT + "  ",
          "corrects entry " + entry.supersedes() + changes(entry) + reason(entry.why()));
    }
    if (entry.supersededBy() != 0) {
      say(
          INDENT + "  ",
          "corrected by entry " + entry.supersededBy() + reason(entry.supersededWhy()));
    }
  }

  /** Number of entries printed. */
  public long count() {
    return count;
  }

  /** Says how many there are in all. */
  public void end(String job, HistoryEntry.Log log) {
    if (count > 0) {
      out.println();
      out.println(
          job
              + ": "
              + count
              + " of "
              + log.entries()
              + " entries; the chain of hashes is whole, head "
              + log.head().substring(0, HEAD_SHOWN)
              + "…");
    }
  }

  private static String reason(String why) {
    return why.isEmpty() ? "" : ": " + why;
  }

  private static String changes(HistoryEntry entry) {
    if (entry.kind().equals("job")) {
      return "";
    }
    List<String> all = new ArrayList<>();
    entry.changes().forEach(c -> all.add(c.key() + " " + c.before() + " to " + c.now()));
    return all.isEmpty() ? ", with the same values" : ", " + String.join(", ", all);
  }

  private static String from(HistoryEntry entry) {
    List<String> parts = new ArrayList<>();
    if (entry.row() > 0) {
      parts.add(entry.file() + ", row " + entry.row());
    }
    String operator = entry.values().getOrDefault("operator", "");
    if (!operator.isEmpty()) {
      parts.add(HistoryWords.deed(entry.kind()) + " by " + operator);
    }
    if (!entry.enteredBy().isEmpty()) {
      parts.add("handed in by " + entry.enteredBy());
    }
    return String.join(", ", parts);
  }

  private static String count(long number, String one, String many) {
    return number + " " + (number == 1 ? one : many);
  }

  /** "2026-10-05 08:02"; UTC. */
  static String time(String iso) {
    return iso.length() < TIME ? iso : iso.substring(0, TIME).replace('T', ' ');
  }

  private void say(String start, String text) {
    String line = start + text;
    while (line.length() > WIDTH) {
      int at = line.lastIndexOf(' ', WIDTH);
      if (at <= INDENT.length() + 2) {
        break;
      }
      out.println(line.substring(0, at));
      line = INDENT + "  " + line.substring(at + 1);
    }
    out.println(line);
  }
}
