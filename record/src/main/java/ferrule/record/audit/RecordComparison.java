package ferrule.record.audit;

import ferrule.record.RecordFiles;
import ferrule.record.audit.Difference.Kind;
import ferrule.record.seal.FileIndex;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/** Every file of a record against the same file made anew from the record's entries. */
public final class RecordComparison {

  /** Differences listed; of a record in which nothing fits the rest is counted. */
  public static final int MOST = 10_000;

  private static final Set<String> NOT_REMADE =
      Set.of(
          RecordFiles.INDEX, RecordFiles.SIGNATURE, RecordFiles.TIME_STAMP, RecordFiles.PUBLIC_KEY);

  /** Files whose words are Ferrule's own: another version may put them otherwise. */
  private static final Set<String> OWN_WORDS =
      Set.of(
          RecordFiles.PAGES,
          RecordFiles.README,
          RecordFiles.DICTIONARY,
          RecordFiles.AUDIT_PAGE,
          RecordFiles.RULEBOOK_TEXT);

  private final Path record;
  private final Path remade;
  private final Set<String> changed;
  private final boolean sameVersion;
  private final List<Difference> differences = new ArrayList<>();
  private final Map<String, Spot> spots = new HashMap<>();
  private final List<String> notes = new ArrayList<>();
  private long beyond;

  /**
   * @param record folder of the record
   * @param remade folder of the record made anew
   * @param changed files that are not what was hashed: they are not understood, only located in
   * @param sameVersion whether one version made both
   */
  public RecordComparison(Path record, Path remade, Set<String> changed, boolean sameVersion) {
    this.record = record;
    this.remade = remade;
    this.changed = Set.copyOf(changed);
    this.sameVersion = sameVersion;
  }

  /**
   * Compares them.
   *
   * @throws IOException if a file cannot be read
   */
  public void compare() throws IOException {
    FileIndex there = FileIndex.of(record).without(NOT_REMADE);
    FileIndex wanted = FileIndex.of(remade);
    SortedSet<String> names = new TreeSet<>(there.hashes().keySet());
    names.addAll(wanted.hashes().keySet());
    boolean pictures = changed.stream().anyMatch(n -> n.startsWith(RecordFiles.PICTURES + "/"));
    for (String name : names) {
      String one = there.hashes().getOrDefault(name, "");
      String other = wanted.hashes().getOrDefault(name, "");
      boolean compared = !one.isEmpty() && !other.isEmpty() && !one.equals(FileIndex.NO_FILE);
      if (one.equals(other)) {
        continue;
      }
      if (changed.contains(name)) {
        if (compared && (sameVersion || !OWN_WORDS.contains(name))) {
          spots.put(name, Spot.of(record.resolve(name), remade.resolve(name)));
        }
      } else if (other.isEmpty()) {
        add(
            new Difference(
                Kind.EXTRA, name, 0, "", "a record of these entries has no such file", ""));
      } else if (one.isEmpty()) {
        if (sameVersion) {
          add(
              new Difference(
                  Kind.MISSING, name, 0, "", "a record of these entries has this file", ""));
        }
      } else if (pictures && (name.equals(RecordFiles.PAGES) || name.equals(RecordFiles.GRADES))) {
        notes.add(name + " was not compared, since a picture was changed");
      } else if (sameVersion || !OWN_WORDS.contains(name)) {
        unlike(name);
      }
    }
  }

  /** A file that is what was hashed, and yet not what follows. */
  private void unlike(String name) throws IOException {
    Path one = record.resolve(name);
    Path other = remade.resolve(name);
    int before = differences.size();
    try {
      if (name.endsWith(".csv")) {
        try (Reader says = reader(one);
            Reader follows = reader(other)) {
          new TableComparison(name, sameVersion, this::add).compare(says, follows);
        }
      } else if (name.endsWith(".json")) {
        try (Reader says = reader(one);
            Reader follows = reader(other)) {
          new JsonComparison(name, sameVersion, this::add).compare(says, follows);
        }
      } else if (name.equals(RecordFiles.PAGES)) {
        if (PagesComparison.compare(one, other, this::add)) {
          notes.add(
              name + " is not byte for byte what this Java makes, but says the same on each page");
        }
        return;
      } else {
        spot(name, one, other);
        return;
      }
    } catch (IOException e) {
      spot(name, one, other);
      return;
    }
    // Numbers that agree but for their last digits are one thing in JSON and tables; if nothing at
    // all was found and the bytes differ, say so.
    if (differences.size() == before && name.equals(RecordFiles.ABOUT)) {
      if (sameVersion) {
        spot(name, one, other);
      }
    } else if (differences.size() == before) {
      notes.add(name + " differs from what this Java makes in the last digits of numbers only");
    }
  }

  private void spot(String name, Path one, Path other) throws IOException {
    Spot spot = Spot.of(one, other);
    add(new Difference(Kind.DIFFERS, name, spot.line(), "", spot.there(), spot.wanted()));
  }

  private static Reader reader(Path file) throws IOException {
    return Files.newBufferedReader(file, StandardCharsets.UTF_8);
  }

  private void add(Difference difference) {
    if (differences.size() < MOST) {
      differences.add(difference);
    } else {
      beyond++;
    }
  }

  /** What does not follow, file by file. */
  public List<Difference> differences() {
    return List.copyOf(differences);
  }

  /** How many differences more there are than are listed. */
  public long beyond() {
    return beyond;
  }

  /** What else a reader should know, each a sentence. */
  public List<String> notes() {
    return List.copyOf(notes);
  }

  /** A difference of a changed file, with the place in it if that could be found. */
  public Difference located(Difference difference) {
    Spot spot = spots.get(difference.file());
    if (spot == null || difference.kind() != Kind.CHANGED || difference.line() > 0) {
      return difference;
    }
    boolean text = !difference.file().equals(RecordFiles.PAGES);
    return new Difference(
        Kind.CHANGED,
        difference.file(),
        text ? spot.line() : 0,
        "byte " + spot.at(),
        text
            ? difference.says() + "; there is " + Difference.quoted(spot.there())
            : difference.says(),
        text ? spot.wanted() : "");
  }
}
