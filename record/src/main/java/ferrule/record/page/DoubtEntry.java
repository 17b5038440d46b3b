package ferrule.record.page;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.FibreRanges;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Separation;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * One numbered entry of the doubts: one doubt, or many of the same kind and causes about single
 * fibres, as rows of one table.
 *
 * @param number by which other pages name it, from 1
 * @param doubts at least one, all of one kind, all blocking or none
 * @param fibres touched, each once
 * @param readings covered
 * @param reach lines that name the reach; empty for an entry of many doubts
 * @param rows of an entry of many doubts; empty otherwise
 * @param rowsLeft rows left out of the table
 */
public record DoubtEntry(
    int number,
    List<Doubt> doubts,
    int fibres,
    int readings,
    List<String> reach,
    List<Row> rows,
    int rowsLeft) {

  /** Rows of one table on paper; the data files hold the rest. */
  static final int MOST_ROWS = 40;

  /**
   * Doubts of one entry that found the same and want the same done.
   *
   * @param fibres "K001/1-12, K003/2"
   * @param what what was found
   * @param next what to do
   * @param where place of the action; may be empty
   */
  public record Row(String fibres, String what, String next, String where) {}

  /** Copies the lists. */
  public DoubtEntry {
    doubts = List.copyOf(doubts);
    reach = List.copyOf(reach);
    rows = List.copyOf(rows);
  }

  /** What sort of doubt. */
  public DoubtKind kind() {
    return doubts.get(0).kind();
  }

  /** Whether readings in its reach prove nothing until it is settled. */
  public boolean blocking() {
    return doubts.get(0).blocking();
  }

  /** Whether it is one doubt. */
  public boolean single() {
    return rows.isEmpty();
  }

  /** How far it reaches, in numbers. */
  public String extent() {
    return fibres == 0
        ? "touches no fibre by itself"
        : "reach "
            + Show.count(fibres, "fibre")
            + (readings == 0 ? ", no reading to name" : ", " + Show.count(readings, "reading"));
  }

  /** What it is about: "zero R2", "12 fibres". */
  public String subject() {
    return single() ? doubts.get(0).subject().shown() : Show.count(fibres, "fibre");
  }

  /** What was found, in words; empty if the numbers say it all. */
  public String what() {
    return what(doubts.get(0)).orElse("");
  }

  private static Optional<String> what(Doubt doubt) {
    return doubt.evidence().stream()
        .filter(e -> e.name().equals("what"))
        .map(Evidence::shown)
        .findFirst();
  }

  private static String evidence(Doubt doubt) {
    return doubt.evidence().stream()
        .filter(e -> !e.name().equals("what"))
        .map(Show::evidence)
        .collect(Collectors.joining("; "));
  }

  /** The evidence besides what was found, in one line; empty if there is none. */
  public String evidence() {
    return evidence(doubts.get(0));
  }

  /**
   * Possible causes, likeliest first, each with its weight; its mean where there are more doubts.
   */
  public String causes() {
    Map<String, Double> weights = new LinkedHashMap<>();
    for (Doubt doubt : doubts) {
      for (Cause cause : doubt.causes()) {
        weights.merge(cause.cause(), cause.weight() / doubts.size(), Double::sum);
      }
    }
    return weights.entrySet().stream()
        .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
        .map(e -> e.getKey() + " (" + Math.round(e.getValue() * 100) + " %)")
        .collect(Collectors.joining("; "));
  }

  /** Whether all rows of an entry of many doubts want the same done in the same place. */
  public boolean oneNext() {
    return rows.stream().map(r -> r.next() + "\n" + r.where()).distinct().count() == 1;
  }

  /** The cheapest next action of a single doubt. */
  public NextStep next() {
    return doubts.get(0).next();
  }

  /** What a single doubt cannot be told from, and what would tell. */
  public List<Separation> separations() {
    return doubts.get(0).separations();
  }

  /** All doubts of a job as entries, blocking ones first, numbered from 1. */
  public static List<DoubtEntry> of(Judgement judgement) {
    Map<Object, List<Doubt>> groups = new LinkedHashMap<>();
    for (boolean blocking : new boolean[] {true, false}) {
      for (Doubt doubt : judgement.doubts()) {
        if (doubt.blocking() == blocking) {
          Object key =
              doubt.subject().type() == Subject.Type.FIBRE
                  ? List.of(doubt.kind(), blocking, doubt.causes().get(0).cause())
                  : doubt.subject().type() + " alone " + groups.size();
          groups.computeIfAbsent(key, k -> new ArrayList<>()).add(doubt);
        }
      }
    }
    List<DoubtEntry> entries = new ArrayList<>();
    for (List<Doubt> doubts : groups.values()) {
      entries.add(entry(judgement, entries.size() + 1, doubts));
    }
    return entries;
  }

  private static DoubtEntry entry(Judgement judgement, int number, List<Doubt> doubts) {
    Set<FibreId> fibres = new LinkedHashSet<>();
    int readings = 0;
    Map<Row, List<FibreId>> rows = new LinkedHashMap<>();
    for (Doubt doubt : doubts) {
      fibres.addAll(doubt.reach().fibres());
      readings += doubt.reach().readings().size();
      Row alike =
          new Row(
              "", what(doubt).orElse(evidence(doubt)), doubt.next().what(), doubt.next().where());
      rows.computeIfAbsent(alike, k -> new ArrayList<>()).addAll(doubt.reach().fibres());
    }
    if (doubts.size() == 1) {
      return new DoubtEntry(
          number,
          doubts,
          fibres.size(),
          readings,
          ReachText.lines(judgement, doubts.get(0).reach()),
          List.of(),
          0);
    }
    List<Row> shown = new ArrayList<>();
    rows.forEach(
        (row, ofRow) -> {
          if (shown.size() < MOST_ROWS) {
            shown.add(new Row(FibreRanges.shown(ofRow, 12), row.what(), row.next(), row.where()));
          }
        });
    return new DoubtEntry(
        number, doubts, fibres.size(), readings, List.of(), shown, rows.size() - shown.size());
  }

  /** The number of the entry that holds each doubt. */
  @SuppressWarnings("IdentityHashMapUsage") // equal doubts are still two doubts
  public static Map<Doubt, Integer> numbers(List<DoubtEntry> entries) {
    Map<Doubt, Integer> numbers = new IdentityHashMap<>();
    for (DoubtEntry entry : entries) {
      entry.doubts().forEach(d -> numbers.put(d, entry.number()));
    }
    return numbers;
  }
}
