package ferrule.store.job;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Two logs made one. A pure function of what the logs hold, and the same whichever comes first:
 *
 * <ul>
 *   <li>an entry that is in both stands once;
 *   <li>of readings, faces and grades alike as many stand as the log with more of them holds;
 *   <li>corrections and withdrawals of one reading are alike if they say the same of it;
 *   <li>what stands under a name on one side only, or was corrected on one side only, is taken
 *       over;
 *   <li>corrections on both sides all stand, in the order of their ids: the later holds the name.
 * </ul>
 *
 * <p>Of entries alike the one with the lesser id stands. Entries are put in the order of their ids,
 * an intake behind its rows.
 */
final class JoinMerge {

  /** Why an entry corrects one that its own log did not hold. */
  static final String JOINED = "joined: entered apart under one name";

  /**
   * A name under which the two logs end with different contents.
   *
   * @param first the entry that holds the name in the first log
   * @param second in the second
   */
  record Fork(Entry first, Entry second) {}

  private record Key(String id, int rank) implements Comparable<Key> {
    private static final Comparator<Key> ORDER =
        Comparator.comparing(Key::id).thenComparingInt(Key::rank);

    @Override
    public int compareTo(Key other) {
      return ORDER.compare(this, other);
    }
  }

  private final List<Entry> first;
  private final List<Entry> second;
  private final Map<String, Entry> all = new LinkedHashMap<>();
  private final Set<String> common = new LinkedHashSet<>();
  private final Map<String, String> standsFor = new HashMap<>();
  private final List<Fork> forks = new ArrayList<>();

  /** Of entries that correct a reading: how many corrections deep, and the id corrected. */
  private final Map<String, Integer> depthOf = new HashMap<>();

  private final Map<String, String> corrected = new HashMap<>();
  private final Map<String, Integer> places = new HashMap<>();
  private final List<Entry> merged;

  /**
   * Joins two logs.
   *
   * @throws DamagedEntryException if one id stands for two different entries
   */
  JoinMerge(List<Entry> first, List<Entry> second) {
    this.first = first;
    this.second = second;
    first.forEach(entry -> all.put(entry.id(), entry));
    for (Entry entry : second) {
      Entry there = all.putIfAbsent(entry.id(), entry);
      if (there != null) {
        if (!there.isSameAs(entry)) {
          throw new DamagedEntryException(
              "entry " + entry.id() + " in both files, but not with the same content");
        }
        common.add(entry.id());
      }
    }
    matchUnnamed();
    matchNamed();
    this.merged = inOrder();
  }

  /** All that stands, numbered from 1. */
  List<Entry> merged() {
    return merged;
  }

  /** Names with two contents, in the order in which the first log names them. */
  List<Fork> forks() {
    return forks;
  }

  /** The number of the entry that holds what an entry of either log says. */
  int place(Entry entry) {
    return places.getOrDefault(standing(entry.id()), 0);
  }

  /** Whether an entry of this id is in both logs. */
  boolean inBoth(Entry entry) {
    return common.contains(entry.id());
  }

  /** Whether another entry, which says the same, stands for this one or it for another. */
  boolean isTwin(Entry entry) {
    return standsFor.containsKey(entry.id());
  }

  /** Entries that both logs hold, by id or by content. */
  long shared() {
    return (long) first.size() + second.size() - merged.size();
  }

  private void twins(Entry one, Entry other) {
    if (one.id().equals(other.id())) {
      return;
    }
    String lesser = one.id().compareTo(other.id()) < 0 ? one.id() : other.id();
    standsFor.put(one.id(), lesser);
    standsFor.put(other.id(), lesser);
  }

  private void matchUnnamed() {
    // A correction is known by what it corrects, so that must be matched before it.
    int deepest = Math.max(noteCorrections(first), noteCorrections(second));
    for (int depth = 0; depth <= deepest; depth++) {
      matchUnnamed(depth);
    }
  }

  /** Notes which readings are corrected by what; gives how many corrections deep they go. */
  private int noteCorrections(List<Entry> log) {
    int deepest = 0;
    for (Entry entry : log) {
      if (correctsReading(entry)) {
        String before = log.get((int) entry.supersedes() - 1).id();
        int depth = 1 + depthOf.getOrDefault(before, 0);
        depthOf.put(entry.id(), depth);
        corrected.put(entry.id(), before);
        deepest = Math.max(deepest, depth);
      }
    }
    return deepest;
  }

  /** Whether it takes the place of a reading, which has no name to be known by. */
  private static boolean correctsReading(Entry entry) {
    return entry.supersedes() != 0 && !EntryKind.ofWord(entry.kind()).named();
  }

  private String standing(String id) {
    return standsFor.getOrDefault(id, id);
  }

  private void matchUnnamed(int depth) {
    Map<String, List<Entry>> ours = unnamed(first, depth);
    unnamed(second, depth)
        .forEach(
            (said, theirs) -> {
              List<Entry> own = ours.getOrDefault(said, List.of());
              for (int i = 0; i < Math.min(own.size(), theirs.size()); i++) {
                twins(own.get(i), theirs.get(i));
              }
            });
  }

  /** Readings, faces and grades of one log only, by what they say, each list by id. */
  private Map<String, List<Entry>> unnamed(List<Entry> log, int depth) {
    Map<String, List<Entry>> bySaid = new LinkedHashMap<>();
    for (Entry entry : log) {
      EntryKind kind = EntryKind.ofWord(entry.kind());
      boolean ofRows = !kind.named() && kind != EntryKind.INTAKE && kind != EntryKind.JOIN;
      if (ofRows && !common.contains(entry.id()) && depthOf.getOrDefault(entry.id(), 0) == depth) {
        String said = entry.said() + "\n" + standing(corrected.getOrDefault(entry.id(), ""));
        bySaid.computeIfAbsent(said, k -> new ArrayList<>(1)).add(entry);
      }
    }
    bySaid.values().forEach(list -> list.sort(Comparator.comparing(Entry::id)));
    return bySaid;
  }

  private static Map<String, List<Entry>> chains(List<Entry> log) {
    Map<String, List<Entry>> byName = new LinkedHashMap<>();
    for (Entry entry : log) {
      if (EntryKind.ofWord(entry.kind()).named()) {
        byName
            .computeIfAbsent(entry.kind() + "\n" + entry.name(), k -> new ArrayList<>(1))
            .add(entry);
      }
    }
    return byName;
  }

  private void matchNamed() {
    Map<String, List<Entry>> theirs = chains(second);
    chains(first)
        .forEach(
            (name, own) -> {
              List<Entry> other = theirs.get(name);
              if (other != null) {
                match(own, other);
              }
            });
  }

  private void match(List<Entry> own, List<Entry> other) {
    int[] ownInOther = within(own, other);
    int[] otherInOwn = within(other, own);
    if (ownInOther.length > 0 && otherInOwn.length > 0) {
      for (int i = 0; i < own.size(); i++) {
        twins(own.get(i), other.get(i));
      }
    } else if (otherInOwn.length > 0) {
      takeOver(other, own, otherInOwn);
    } else if (ownInOther.length > 0) {
      takeOver(own, other, ownInOther);
    } else {
      int i = 0;
      while (own.get(i).content().equals(other.get(i).content())) {
        twins(own.get(i), other.get(i));
        i++;
      }
      Entry mine = own.get(own.size() - 1);
      Entry yours = other.get(other.size() - 1);
      if (!mine.content().equals(yours.content())) {
        forks.add(new Fork(mine, yours));
      }
    }
  }

  /** The longer history stands as it is: it knew the shorter and went on. */
  private void takeOver(List<Entry> shorter, List<Entry> longer, int[] at) {
    for (int i = 0; i < at.length; i++) {
      if (!common.contains(shorter.get(i).id())) {
        standsFor.put(shorter.get(i).id(), longer.get(at[i]).id());
        standsFor.put(longer.get(at[i]).id(), longer.get(at[i]).id());
      }
    }
  }

  /** Where each content of one history stands in another, in order; empty if one does not. */
  private static int[] within(List<Entry> some, List<Entry> whole) {
    int[] at = new int[some.size()];
    int found = 0;
    for (int i = 0; i < whole.size() && found < at.length; i++) {
      if (whole.get(i).content().equals(some.get(found).content())) {
        at[found++] = i;
      }
    }
    return found == at.length ? at : new int[0];
  }

  private List<Entry> inOrder() {
    List<Entry> standing = new ArrayList<>(all.size());
    Map<String, String> lastRow = new HashMap<>();
    for (Entry entry : all.values()) {
      if (standing(entry.id()).equals(entry.id())) {
        standing.add(entry);
        lastRow.merge(entry.intake(), entry.id(), (a, b) -> a.compareTo(b) < 0 ? b : a);
      }
    }
    Entry[] sorted = standing.toArray(new Entry[0]);
    Map<String, Key> keys = new HashMap<>();
    for (Entry entry : sorted) {
      boolean behind = entry.kind().equals(EntryKind.INTAKE.word());
      keys.put(
          entry.id(),
          behind
              ? new Key(lastRow.getOrDefault(entry.id(), entry.id()), 1)
              : new Key(entry.id(), 0));
    }
    Arrays.sort(
        sorted, Comparator.comparing((Entry e) -> keys.get(e.id())).thenComparing(Entry::id));
    return chained(sorted);
  }

  /**
   * What holds the place of a reading that has no name.
   *
   * @param seq number of the entry
   * @param withdrawn whether it takes the reading out
   */
  private record Hold(int seq, boolean withdrawn) {}

  private List<Entry> chained(Entry[] sorted) {
    List<Entry> numbered = new ArrayList<>(sorted.length);
    Map<String, Integer> holders = new HashMap<>();
    Map<String, Hold> readings = new HashMap<>();
    for (Entry entry : sorted) {
      int seq = numbered.size() + 1;
      EntryKind kind = EntryKind.ofWord(entry.kind());
      int corrects = 0;
      String why = entry.why();
      if (kind.named()) {
        Integer holder = holders.put(entry.kind() + "\n" + entry.name(), seq);
        corrects = holder == null ? 0 : holder;
        why = corrects == 0 ? "" : why.isEmpty() ? JOINED : why;
      } else if (corrected.containsKey(entry.id())) {
        String root = root(entry);
        boolean withdraws = kind == EntryKind.WITHDRAWAL;
        Hold hold = readings.getOrDefault(root, new Hold(places.getOrDefault(root, 0), false));
        if (hold.withdrawn() && withdraws) {
          places.put(entry.id(), hold.seq()); // nothing is left to withdraw: the first says it
          continue;
        }
        // A correction of what the other side withdrew stands as a reading of its own.
        corrects = hold.withdrawn() ? 0 : hold.seq();
        readings.put(root, new Hold(seq, withdraws));
      }
      numbered.add(entry.placed(seq, corrects, why));
      places.put(entry.id(), seq);
    }
    return numbered;
  }

  /** The id of the reading that was there before it or anything before it was corrected. */
  private String root(Entry entry) {
    String root = standing(entry.id());
    while (corrected.containsKey(root)) {
      root = standing(corrected.getOrDefault(root, root));
    }
    return root;
  }
}
