package ferrule.store.job;

import ferrule.store.job.JoinConflict.From;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;

/** Finds what two logs say differently. */
final class JoinConflicts {

  private static final int LONGEST_VALUE = 60;

  private final JoinMerge merge;
  private final Map<String, JoinConflict> found = new LinkedHashMap<>();

  private JoinConflicts(JoinMerge merge) {
    this.merge = merge;
  }

  /** All conflicts, of names first, and those that either log had left open. */
  static List<JoinConflict> find(JoinMerge merge, JoinedLog first, JoinedLog second) {
    JoinConflicts conflicts = new JoinConflicts(merge);
    merge.forks().forEach(conflicts::fork);
    conflicts.methods(first.entries(), second.entries());
    conflicts.apart(EntryKind.READING, first, second, OpenMatters::readingName);
    conflicts.apart(EntryKind.FACE, first, second, v -> v.getOrDefault("picture", ""));
    conflicts.apart(EntryKind.GRADE, first, second, v -> v.getOrDefault("picture", ""));
    first.open().conflicts().forEach(conflicts::add);
    second.open().conflicts().forEach(conflicts::add);
    return List.copyOf(conflicts.found.values());
  }

  private void add(JoinConflict conflict) {
    found.putIfAbsent(conflict.kind() + "\n" + conflict.name(), conflict);
  }

  private void add(EntryKind kind, String name, Entry one, Entry other, List<String[]> differing) {
    boolean inOrder = one.id().compareTo(other.id()) < 0;
    String columns = String.join(", ", differing.stream().map(d -> d[0]).distinct().toList());
    String ones = String.join(", ", differing.stream().map(d -> shown(d[1])).toList());
    String others = String.join(", ", differing.stream().map(d -> shown(d[2])).toList());
    add(
        inOrder
            ? new JoinConflict(kind, name, columns, ones, others, From.of(one), From.of(other))
            : new JoinConflict(kind, name, columns, others, ones, From.of(other), From.of(one)));
  }

  private static String shown(String value) {
    return value.length() <= LONGEST_VALUE ? value : value.substring(0, LONGEST_VALUE) + "…";
  }

  private void fork(JoinMerge.Fork fork) {
    Entry one = fork.first();
    Entry other = fork.second();
    EntryKind kind = EntryKind.ofWord(one.kind());
    List<String[]> differing =
        kind == EntryKind.JOB
            ? papers(EntryCodec.flat(one.content()), EntryCodec.flat(other.content()))
            : EntryCodec.differences(one.content(), other.content());
    if (!differing.isEmpty()) {
      add(kind, one.name(), one, other, differing);
    }
  }

  /** Lines of job.toml that only one paper holds, comments left out; and the rulebook's text. */
  private static List<String[]> papers(Map<String, String> one, Map<String, String> other) {
    Map<String, String> ours = settings(one.getOrDefault("toml", ""));
    Map<String, String> theirs = settings(other.getOrDefault("toml", ""));
    Set<String> keys = new LinkedHashSet<>(ours.keySet());
    keys.addAll(theirs.keySet());
    List<String[]> differing = new ArrayList<>();
    for (String key : keys) {
      String mine = ours.getOrDefault(key, "nothing");
      String yours = theirs.getOrDefault(key, "nothing");
      if (!mine.equals(yours)) {
        differing.add(new String[] {key, mine, yours});
      }
    }
    if (!Objects.equals(one.get("rulebook_text"), other.get("rulebook_text"))) {
      String file = "rulebook " + one.getOrDefault("rulebook_file", "");
      String otherFile = "rulebook " + other.getOrDefault("rulebook_file", "");
      differing.add(
          new String[] {
            "rulebook_text", file, file.equals(otherFile) ? "another text of it" : otherFile
          });
    }
    return differing;
  }

  /** The lines of a paper as key and value; what spans lines goes with its first. */
  private static Map<String, String> settings(String toml) {
    Map<String, String> settings = new LinkedHashMap<>();
    String last = "";
    for (String line : toml.lines().map(String::strip).toList()) {
      if (line.isEmpty() || line.startsWith("#") || line.startsWith("[")) {
        continue;
      }
      int equals = line.indexOf('=');
      if (equals > 0) {
        last = line.substring(0, equals).strip();
        settings.put(last, uncommented(line.substring(equals + 1)));
      } else {
        settings.merge(last, uncommented(line), (a, b) -> a + " " + b);
      }
    }
    return settings;
  }

  private static String uncommented(String value) {
    boolean quoted = false;
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == '#' && !quoted) {
        return value.substring(0, i).strip();
      }
    }
    return value.strip();
  }

  /** One zero has one method, also if the two logs hold different levels of it. */
  private void methods(List<Entry> first, List<Entry> second) {
    Map<String, Entry> ours = lastLevels(first);
    lastLevels(second)
        .forEach(
            (zero, theirs) -> {
              Entry own = ours.get(zero);
              if (own == null || own.name().equals(theirs.name())) {
                return;
              }
              String mine = EntryCodec.flat(own.content()).getOrDefault("method", "");
              String yours = EntryCodec.flat(theirs.content()).getOrDefault("method", "");
              boolean told = found.keySet().stream().anyMatch(k -> k.contains("\n" + zero + " "));
              if (!mine.equals(yours) && !told) {
                add(
                    EntryKind.REFERENCE,
                    zero,
                    own,
                    theirs,
                    List.<String[]>of(new String[] {"method", mine, yours}));
              }
            });
  }

  private static Map<String, Entry> lastLevels(List<Entry> log) {
    Map<String, Entry> last = new TreeMap<>();
    for (Entry entry : log) {
      if (entry.kind().equals(EntryKind.REFERENCE.word())) {
        last.put(OpenMatters.zero(entry.name()), entry);
      }
    }
    return last;
  }

  /** Entries of one log only that mean the same thing as one of the other, and say otherwise. */
  private void apart(
      EntryKind kind,
      JoinedLog first,
      JoinedLog second,
      Function<Map<String, String>, String> nameOf) {
    Map<String, Entry> ours = new HashMap<>();
    for (Entry entry : alone(kind, first)) {
      ours.put(nameOf.apply(EntryCodec.flat(entry.content())), entry);
    }
    for (Entry entry : alone(kind, second)) {
      String name = nameOf.apply(EntryCodec.flat(entry.content()));
      Entry own = ours.get(name);
      if (own == null) {
        continue;
      }
      List<String[]> differing = EntryCodec.differences(own.content(), entry.content());
      if (kind == EntryKind.GRADE) {
        // One picture graded twice is no conflict; two pictures of one name are.
        differing.removeIf(d -> !Arrays.asList("sha256", "subject").contains(d[0]));
      }
      if (!differing.isEmpty()) {
        add(kind, name, own, entry, differing);
      }
    }
  }

  private List<Entry> alone(EntryKind kind, JoinedLog log) {
    return log.entries().stream()
        .filter(e -> e.kind().equals(kind.word()) && !merge.inBoth(e) && !merge.isTwin(e))
        .toList();
  }
}
