package ferrule.app;

import ferrule.store.job.FileCheck;
import ferrule.store.job.HistoryEntry;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A history as a table for people: one entry after another, what was corrected beneath it. */
public final class HistoryText {

  private static final int WIDTH = 100;
  private static final int TIME = 19;
  private static final int NUMBER = 6;
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
    out.println("  " + check.entries() + " entries, every hash fits; head " + check.head());
    out.println("  " + check.pictures() + " pictures, each under its hash");
    for (String head : check.joined()) {
      out.println("  joined file told again, its head fits: " + head);
    }
    out.println();
  }

  /** Prints an entry. */
  public void entry(HistoryEntry entry) {
    if (count++ == 0) {
      out.println(" entry  entered, UTC        what");
    }
    String start =
        String.format("%" + NUMBER + "d  %-" + TIME + "s  ", entry.seq(), time(entry.enteredAt()));
    say(start, what(entry) + from(entry));
    if (entry.supersedes() != 0) {
      say(INDENT, "corrects entry " + entry.supersedes() + changes(entry) + reason(entry.why()));
    }
    if (entry.supersededBy() != 0) {
      say(INDENT, "corrected by entry " + entry.supersededBy() + reason(entry.supersededWhy()));
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
    String by = entry.enteredBy().isEmpty() ? "" : ", handed in by " + entry.enteredBy();
    if (entry.file().isEmpty() || entry.kind().equals("intake") || entry.kind().equals("job")) {
      return by;
    }
    return "; " + entry.file() + (entry.row() > 0 ? ", row " + entry.row() : "") + by;
  }

  private static String what(HistoryEntry entry) {
    Map<String, String> v = entry.values();
    return switch (entry.kind()) {
      case "job" -> "job.toml";
      case "intake" -> intake(v);
      case "join" -> "two files joined";
      case "reading" ->
          "reading "
              + fibre(v)
              + ": "
              + both(v, "loss_db", " dB", "power_dbm", " dBm")
              + ", zero "
              + v.getOrDefault("reference", "")
              + ", read "
              + time(v.getOrDefault("measured_at", ""))
              + operator(v);
      case "reference" ->
          "zero "
              + entry.name()
              + " nm: "
              + v.getOrDefault("power_dbm", "")
              + " dBm"
              + (v.containsKey("verification_db")
                  ? ", verified " + v.get("verification_db") + " dB"
                  : ", not verified")
              + ", "
              + v.getOrDefault("method", "")
              + cords(v)
              + ", set "
              + time(v.getOrDefault("set_at", ""))
              + operator(v);
      case "link" ->
          "link "
              + entry.name()
              + ": "
              + v.getOrDefault("fibre_category", "")
              + ", "
              + v.getOrDefault("fibres", "")
              + " fibres, "
              + v.getOrDefault("length_m", "")
              + " m, "
              + v.getOrDefault("connections", "0")
              + " connections, "
              + v.getOrDefault("splices", "0")
              + " splices";
      case "face" -> "face " + v.getOrDefault("subject", "") + ", picture " + v.get("picture");
      case "grade" ->
          "grade of "
              + v.getOrDefault("picture", "")
              + ", "
              + v.getOrDefault("subject", "")
              + ": "
              + v.getOrDefault("outcome", "");
      default -> entry.kind() + " " + entry.name() + rest(v);
    };
  }

  private static String intake(Map<String, String> v) {
    StringBuilder said = new StringBuilder(v.getOrDefault("file", "") + ": ");
    said.append(v.getOrDefault("rows", "0")).append(" rows");
    counted(said, v, "entered", " entered");
    counted(said, v, "superseding", " as corrections");
    counted(said, v, "repeated", " in the job already");
    return said.toString();
  }

  private static void counted(StringBuilder said, Map<String, String> v, String key, String what) {
    String number = v.getOrDefault(key, "0");
    if (!number.equals("0")) {
      said.append(", ").append(number).append(what);
    }
  }

  private static String fibre(Map<String, String> v) {
    return v.getOrDefault("link", "")
        + "/"
        + v.getOrDefault("fibre", "")
        + " "
        + v.getOrDefault("direction", "")
        + " "
        + v.getOrDefault("wavelength_nm", "")
        + " nm";
  }

  private static String both(
      Map<String, String> v, String key, String unit, String other, String otherUnit) {
    List<String> parts = new ArrayList<>();
    if (v.containsKey(key)) {
      parts.add(v.get(key) + unit);
    }
    if (v.containsKey(other)) {
      parts.add(v.get(other) + otherUnit);
    }
    return String.join(", ", parts);
  }

  private static String cords(Map<String, String> v) {
    List<String> cords = new ArrayList<>();
    for (String key : List.of("launch_cord", "receive_cord", "substitution_cord")) {
      if (v.containsKey(key)) {
        cords.add(v.get(key));
      }
    }
    return cords.isEmpty() ? "" : ", cords " + String.join(" and ", cords);
  }

  private static String operator(Map<String, String> v) {
    String operator = v.getOrDefault("operator", "");
    return operator.isEmpty() ? "" : " by " + operator;
  }

  /** What is left to say of kinds with few values, but for the name. */
  private static String rest(Map<String, String> v) {
    List<String> parts = new ArrayList<>();
    v.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .filter(e -> !List.of("instrument", "cord", "link", "order").contains(e.getKey()))
        .forEach(e -> parts.add(e.getKey() + " " + e.getValue()));
    return parts.isEmpty() ? "" : ": " + String.join(", ", parts);
  }

  /** "2026-10-05 08:02:00"; UTC, parts of a second left out. */
  private static String time(String iso) {
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
