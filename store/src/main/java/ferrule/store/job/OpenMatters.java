package ferrule.store.job;

import ferrule.core.Problem;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a log leaves open, kept up as its entries go by: rows that the last intake of each file
 * could not use, and conflicts of the last join that no entry has settled since.
 */
final class OpenMatters {

  private final Map<String, List<Problem>> problems = new LinkedHashMap<>();
  private final Map<String, JoinConflict> conflicts = new LinkedHashMap<>();

  /** Takes the next entry of the log. */
  void see(Entry entry) {
    EntryKind kind = EntryKind.ofWord(entry.kind());
    if (kind == EntryKind.JOIN) {
      JoinContent join = JoinContent.decode(entry.content());
      problems.clear();
      join.problems()
          .forEach(p -> problems.computeIfAbsent(p.file(), k -> new ArrayList<>()).add(p));
      conflicts.clear();
      join.conflicts().forEach(c -> conflicts.put(key(c.kind(), c.name()), c));
    } else if (kind == EntryKind.INTAKE) {
      problems.put(entry.file(), problemsOf(entry));
    } else if (!conflicts.isEmpty()) {
      settle(kind, entry);
    }
  }

  private static List<Problem> problemsOf(Entry intake) {
    try {
      return ProblemJson.lists(intake.content(), "intake")
          .getOrDefault("problems", List.of())
          .stream()
          .map(values -> ProblemJson.read(intake.file(), values))
          .toList();
    } catch (NumberFormatException e) {
      throw new DamagedEntryException("content that is no intake");
    }
  }

  private void settle(EntryKind kind, Entry entry) {
    switch (kind) {
      case WITHDRAWAL -> settleCase(readingName(EntryCodec.flat(entry.content())));
      case READING -> {
        String name = readingName(EntryCodec.flat(entry.content()));
        if (entry.supersedes() != 0) {
          settleCase(name);
          return;
        }
        String sameCase = sameCase(name);
        // Times are UTC to the second or finer, so that a later one is the greater text but for
        // parts of a second: these are too close to be a retest.
        conflicts
            .values()
            .removeIf(
                c ->
                    c.kind() == EntryKind.READING
                        && c.name().startsWith(sameCase)
                        && c.name().compareTo(name) < 0);
      }
      case FACE, GRADE ->
          conflicts.remove(key(kind, EntryCodec.flat(entry.content()).getOrDefault("picture", "")));
      case REFERENCE -> {
        conflicts.remove(key(kind, entry.name()));
        conflicts.remove(key(kind, EntryCodec.flat(entry.content()).getOrDefault("reference", "")));
      }
      case JOB, LINK, INSTRUMENT, CORD, PART, POLARITY -> conflicts.remove(key(kind, entry.name()));
      case INTAKE, JOIN -> {}
    }
  }

  /** Who corrects or withdraws a reading has looked at those of its case. */
  private void settleCase(String name) {
    conflicts
        .values()
        .removeIf(c -> c.kind() == EntryKind.READING && c.name().startsWith(sameCase(name)));
  }

  private static String sameCase(String readingName) {
    return readingName.substring(0, readingName.lastIndexOf(' ') + 1);
  }

  /** "L01/1 A-B 1310 2026-10-05T09:02:00Z": what a reading is of, and when it was taken. */
  static String readingName(Map<String, String> reading) {
    return reading.getOrDefault("link", "")
        + "/"
        + reading.getOrDefault("fibre", "")
        + " "
        + reading.getOrDefault("direction", "")
        + " "
        + reading.getOrDefault("wavelength_nm", "")
        + " "
        + reading.getOrDefault("measured_at", "");
  }

  private static String key(EntryKind kind, String name) {
    return kind.word() + "\n" + name;
  }

  /** Whether a name is entered with two contents and nobody has settled it. */
  boolean isOpen(EntryKind kind, String name) {
    return conflicts.containsKey(key(kind, name))
        || (kind == EntryKind.REFERENCE && conflicts.containsKey(key(kind, zero(name))));
  }

  /** The zero of a level that is named "R1 A-B 1310"; the name itself if it is a zero's. */
  static String zero(String name) {
    int wavelength = name.lastIndexOf(' ');
    int direction = wavelength < 0 ? -1 : name.lastIndexOf(' ', wavelength - 1);
    return direction < 0 ? name : name.substring(0, direction);
  }

  /** Conflicts that are open. */
  List<JoinConflict> conflicts() {
    return List.copyOf(conflicts.values());
  }

  /** Rows of a file that its last intake could not use. */
  List<Problem> problems(String file) {
    return problems.getOrDefault(file, List.of());
  }

  /** Notes what an intake that is under way could not use. */
  void note(String file, List<Problem> found) {
    problems.put(file, found);
  }

  /** Rows that could not be used, file by file. */
  List<Problem> problems() {
    return problems.values().stream().flatMap(List::stream).toList();
  }
}
