package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.AlarmShare;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code repeated-values}: all values of a fibre, and its length if there is one, equal those of
 * another fibre to the last digit handed in, and that is more than chance.
 *
 * <p>Chance is priced from this job ({@link ValueSpread}, {@link LengthTies}): so many pairs as
 * near to each other as these two, in test order or in the order of the schedule, times the chance
 * that two honest fibres agree, at a place as far out as theirs. A list that repeats another in
 * order multiplies the chances of its members. The doubt rings when fewer than {@value #EXPECTED}
 * such coincidences were to be expected in the whole job. Of the two, the later one is the subject.
 * Where every reading of the job is one number, the job is ({@link OneNumber}).
 */
public final class RepeatedValuesFinder implements DoubtFinder {

  /** A fifth of one ring in 200 honest jobs. */
  static final double EXPECTED = 0.0008;

  /**
   * Losses are skewed and crowd more than a normal law of their spread; the price of one agreement
   * is raised by this much. Checked by simulation with log-normal and exponential connections.
   */
  private static final double CROWDING = 3;

  /** Two orders are looked at. */
  private static final double LOOKS = 2;

  /** However far out: wild values have wilder tails than a normal law. */
  private static final double LEAST_SHARE = 0.02;

  private static final int ENOUGH = 12;

  /** With fewer different sets than this share, sets repeat as a rule and tell nothing. */
  private static final double LEAST_DISTINCT = 0.4;

  /** With how many earlier ones of the same values a set is compared. */
  private static final int MOST_BEFORE = 8;

  /** A repeat found: places in test order, the earlier one first. */
  private static final class Pair {
    final int first;
    final int second;
    final double logChance;
    double expected = Double.POSITIVE_INFINITY;
    int list = 1;

    Pair(int first, int second, double logChance) {
      this.first = first;
      this.second = second;
      this.logChance = logChance;
    }
  }

  private final Timeline timeline;

  /** A finder for the ledger of this timeline. */
  public RepeatedValuesFinder(Timeline timeline) {
    this.timeline = timeline;
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    if (!anythingRepeats(ledger)) {
      return;
    }
    Optional<Doubt> oneNumber = OneNumber.doubt(ledger);
    if (oneNumber.isPresent()) {
      out.accept(oneNumber.get());
      return;
    }
    Map<Integer, Doubt> bySlot = new TreeMap<>();
    for (ValueSets sets : ValueSets.of(ledger, timeline.moments())) {
      new Search(ledger, sets).find(bySlot);
    }
    bySlot.values().forEach(out);
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    long looks = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      looks += ValueSets.trace(ledger, slot) == 0 ? 0 : 1;
    }
    return looks < ENOUGH
        ? List.of()
        : List.of(new AlarmShare(DoubtKind.REPEATED_VALUES, true, looks, EXPECTED));
  }

  /** Whether any two fibres may share values and length. */
  private static boolean anythingRepeats(Ledger ledger) {
    // An open hash table, at most half full; 0 stands for an empty place and for no readings.
    long[] traces = new long[tableSize(ledger.slots())];
    for (int slot = 0; slot < ledger.slots(); slot++) {
      long trace = ValueSets.trace(ledger, slot);
      int at = (int) trace & traces.length - 1;
      while (traces[at] != 0 && traces[at] != trace) {
        at = at + 1 & traces.length - 1;
      }
      if (trace != 0 && traces[at] == trace) {
        return true;
      }
      traces[at] = trace;
    }
    return false;
  }

  /** A power of two of which so many entries fill at most half. */
  private static int tableSize(int entries) {
    return Integer.highestOneBit(Math.max(1, entries)) << 2;
  }

  /** The search among fibres that were read in the same cases. */
  private static final class Search {
    private final Ledger ledger;

    /** In test order. */
    private final ValueSets sets;

    /** For each set the one before it that has the same values; -1 if there is none. */
    private final int[] before;

    Search(Ledger ledger, ValueSets sets) {
      this.ledger = ledger;
      this.sets = sets;
      this.before = new int[sets.size()];
    }

    void find(Map<Integer, Doubt> bySlot) {
      if (sets.size() < ENOUGH) {
        return;
      }
      int distinct = linkAlike();
      if (distinct == sets.size() || distinct < LEAST_DISTINCT * sets.size()) {
        return;
      }
      List<Pair> pairs = pairs();
      if (pairs.isEmpty()) {
        return;
      }
      int[] inTestOrder = new int[sets.size()];
      Arrays.setAll(inTestOrder, i -> i);
      price(pairs, inTestOrder);
      int[] inSchedule = new int[sets.size()];
      Arrays.setAll(inSchedule, sets::placeInSchedule);
      price(pairs, inSchedule);
      for (int i = 0; i < pairs.size(); ) {
        // Pairs of one later set follow each other.
        Pair best = pairs.get(i);
        int end = i;
        while (end < pairs.size() && pairs.get(end).second == best.second) {
          best = pairs.get(end).expected < best.expected ? pairs.get(end) : best;
          end++;
        }
        if (best.expected < EXPECTED) {
          bySlot.put(sets.slot(best.second), doubt(best));
        }
        i = end;
      }
    }

    /** Links sets of the same values; returns how many different sets there are. */
    private int linkAlike() {
      int distinct = 0;
      // An open hash table of the last set of each kind, less than half full.
      int[] last = new int[tableSize(sets.size())];
      Arrays.fill(last, -1);
      for (int set = 0; set < before.length; set++) {
        int at = (int) sets.trace(set) & last.length - 1;
        while (last[at] >= 0 && !sets.sameValues(last[at], set)) {
          at = at + 1 & last.length - 1;
        }
        before[set] = last[at];
        distinct += last[at] < 0 ? 1 : 0;
        last[at] = set;
      }
      return distinct;
    }

    private List<Pair> pairs() {
      @Nullable Odds odds = null;
      List<Pair> pairs = new ArrayList<>();
      int[] earlier = new int[MOST_BEFORE];
      for (int second = 0; second < before.length; second++) {
        int count = 0;
        for (int set = before[second]; set >= 0 && count < MOST_BEFORE; set = before[set]) {
          earlier[count++] = set;
        }
        while (count > 0) {
          int first = earlier[--count];
          if (sets.repeats(second, first)) {
            if (odds == null) {
              odds = new Odds(sets);
            }
            pairs.add(new Pair(first, second, Math.log(odds.chance(first, second))));
          }
        }
      }
      return pairs;
    }

    /** What chance makes of these sets. */
    private static final class Odds {
      private final ValueSets sets;
      private final double commonStep;
      private final ValueSpread spread;
      private final LengthTies lengths;

      Odds(ValueSets sets) {
        this.sets = sets;
        this.commonStep = PrintedStep.ofMany(sets.allValues());
        this.spread = ValueSpread.of(sets.residuals(), commonStep);
        this.lengths = new LengthTies(sets);
      }

      double chance(int first, int second) {
        double step = Math.max(commonStep, PrintedStep.ofFew(sets.values(second)));
        double share = Math.max(spread.shareAsFarOut(first), spread.shareAsFarOut(second));
        return Math.min(1, CROWDING * spread.chance(step) * Math.max(LEAST_SHARE, share))
            * lengths.chance(first, second);
      }
    }

    /** Prices each pair as part of the longest list that repeats in one order. */
    private void price(List<Pair> pairs, int[] place) {
      List<Pair> inOrder = new ArrayList<>(pairs);
      inOrder.sort(
          Comparator.comparingInt((Pair p) -> place[p.second])
              .thenComparingInt(p -> place[p.first]));
      Map<Long, List<Pair>> lists = new HashMap<>();
      for (Pair pair : inOrder) {
        long before = key(place[pair.first] - 1, place[pair.second] - 1);
        List<Pair> list = lists.remove(before);
        if (list == null) {
          list = new ArrayList<>(1);
        }
        list.add(pair);
        lists.put(key(place[pair.first], place[pair.second]), list);
      }
      double n = sets.size();
      for (List<Pair> list : lists.values()) {
        double log = 0;
        for (Pair pair : list) {
          log += pair.logChance;
        }
        double apart = Math.abs(place[list.get(0).second] - place[list.get(0).first]);
        double expected = LOOKS * n * Math.min(apart, n / 2) * Math.exp(log);
        for (Pair pair : list) {
          if (expected < pair.expected) {
            pair.expected = expected;
            pair.list = list.size();
          }
        }
      }
    }

    private static long key(int first, int second) {
      return ((long) first << 32) ^ (second & 0xffffffffL);
    }

    private Doubt doubt(Pair pair) {
      int slot = sets.slot(pair.second);
      boolean hasLength = sets.hasLength(pair.second);
      FibreId fibre = ledger.fibre(slot);
      FibreId other = ledger.fibre(sets.slot(pair.first));
      AssessedReading[] readings = sets.readings(pair.second);
      List<AssessedReading> reach = new ArrayList<>(Arrays.asList(readings));
      reach.sort(Comparator.comparingInt(AssessedReading::index));
      List<Evidence> evidence = new ArrayList<>();
      evidence.add(
          Evidence.of(
              "what",
              "all "
                  + Steps.count(readings.length, "value")
                  + (hasLength ? " and the length" : "")
                  + " cannot be told from a repeat of "
                  + other
                  + (pair.list > 1 ? ", in a list of " + pair.list + " that repeats" : "")));
      evidence.add(Evidence.of("equal_to", other.toString()));
      evidence.add(Evidence.of("values_equal", readings.length));
      if (hasLength) {
        evidence.add(Evidence.of("length_m", sets.lengthM(pair.second)));
      }
      evidence.add(Evidence.of("fibres_in_list", pair.list));
      evidence.add(Evidence.of("tests_between", pair.second - pair.first - 1));
      evidence.add(Evidence.of("coincidences_expected", pair.expected));
      evidence.add(
          Evidence.of(
              "first_loss_db",
              Decibels.shown(readings[0].lossDb()) + " dB at " + readings[0].caseShown()));
      return new Doubt(
          DoubtKind.REPEATED_VALUES,
          Subject.fibre(fibre),
          true,
          Reach.of(reach),
          evidence,
          Causes.ranked(
              "one fibre was read under two names",
              "one set of rows was handed in under two names",
              "a rare coincidence"),
          new NextStep(
                  "witness:" + fibre.link(),
                  fibre
                      + " cannot be told from a repeat of "
                      + other
                      + "; a witnessed retest of link "
                      + fibre.link()
                      + " is suggested",
                  ledger.link(slot).a().where(),
                  Handling.RETEST_LINK)
              .withResults(
                  "The retest differs from the values on record in a case"
                      + Steps.beyondChance(reach),
                  "It agrees with them in every case: a coincidence"));
    }
  }
}
