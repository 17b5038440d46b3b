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
import java.util.Collection;
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
  static final double EXPECTED = 0.001;

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
    List<List<ValueSet>> byCases = new ArrayList<>();
    for (int slot = 0; slot < ledger.slots(); slot++) {
      ValueSet set = ValueSet.of(ledger, slot);
      if (set != null) {
        placeFor(set, byCases).add(set);
      }
    }
    Map<Integer, Doubt> bySlot = new TreeMap<>();
    byCases.forEach(sets -> new Search(ledger, sets).find(bySlot));
    bySlot.values().forEach(out);
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    long looks = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      looks += ValueSet.trace(ledger, slot) == 0 ? 0 : 1;
    }
    return looks < ENOUGH
        ? List.of()
        : List.of(new AlarmShare(DoubtKind.REPEATED_VALUES, true, looks, EXPECTED));
  }

  private static boolean anythingRepeats(Ledger ledger) {
    long[] traces = new long[ledger.slots()];
    for (int slot = 0; slot < traces.length; slot++) {
      traces[slot] = ValueSet.trace(ledger, slot);
    }
    Arrays.sort(traces);
    for (int i = 1; i < traces.length; i++) {
      if (traces[i] == traces[i - 1] && traces[i] != 0) {
        return true;
      }
    }
    return false;
  }

  /** Combinations of cases are few: the list that holds sets of the same cases, or a new one. */
  private static List<ValueSet> placeFor(ValueSet set, List<List<ValueSet>> byCases) {
    for (List<ValueSet> sets : byCases) {
      if (sets.get(0).sameCasesAs(set)) {
        return sets;
      }
    }
    List<ValueSet> sets = new ArrayList<>();
    byCases.add(sets);
    return sets;
  }

  /** The search among fibres that were read in the same cases. */
  private static final class Search {
    private final Ledger ledger;

    /** In test order. */
    private final List<ValueSet> sets;

    Search(Ledger ledger, List<ValueSet> sets) {
      this.ledger = ledger;
      this.sets = sets;
    }

    void find(Map<Integer, Doubt> bySlot) {
      if (sets.size() < ENOUGH) {
        return;
      }
      Map<ValueSetKey, List<Integer>> alike = new HashMap<>();
      sets.sort(Comparator.comparingDouble(ValueSet::at).thenComparingInt(ValueSet::index));
      for (int i = 0; i < sets.size(); i++) {
        alike.computeIfAbsent(new ValueSetKey(sets.get(i)), k -> new ArrayList<>(1)).add(i);
      }
      if (alike.size() == sets.size() || alike.size() < LEAST_DISTINCT * sets.size()) {
        return;
      }
      List<Pair> pairs = pairs(alike.values());
      if (pairs.isEmpty()) {
        return;
      }
      int[] inTestOrder = new int[sets.size()];
      Arrays.setAll(inTestOrder, i -> i);
      price(pairs, inTestOrder);
      price(pairs, placesInSchedule());
      Map<Integer, Pair> best = new HashMap<>();
      for (Pair pair : pairs) {
        if (pair.expected < EXPECTED) {
          best.merge(pair.second, pair, (a, b) -> b.expected < a.expected ? b : a);
        }
      }
      best.values().forEach(p -> bySlot.put(sets.get(p.second).slot(), doubt(p)));
    }

    private List<Pair> pairs(Collection<List<Integer>> alike) {
      @Nullable ValueSpread spread = null;
      @Nullable LengthTies lengths = null;
      double commonStep = 0;
      List<Pair> pairs = new ArrayList<>();
      for (List<Integer> places : alike) {
        for (int later = 1; later < places.size(); later++) {
          for (int earlier = Math.max(0, later - MOST_BEFORE); earlier < later; earlier++) {
            int first = places.get(earlier);
            int second = places.get(later);
            if (!sets.get(second).repeats(sets.get(first))) {
              continue;
            }
            if (spread == null || lengths == null) {
              commonStep = commonStep();
              spread = ValueSpread.of(residuals(), commonStep);
              lengths = new LengthTies(sets);
            }
            double step = Math.max(commonStep, PrintedStep.ofFew(sets.get(second).values()));
            double share = Math.max(spread.shareAsFarOut(first), spread.shareAsFarOut(second));
            double chance =
                Math.min(1, CROWDING * spread.chance(step) * Math.max(LEAST_SHARE, share))
                    * lengths.chance(sets.get(first), sets.get(second));
            pairs.add(new Pair(first, second, Math.log(chance)));
          }
        }
      }
      return pairs;
    }

    private double commonStep() {
      int each = sets.get(0).values().length;
      double[] all = new double[each * sets.size()];
      for (int i = 0; i < sets.size(); i++) {
        System.arraycopy(sets.get(i).values(), 0, all, i * each, each);
      }
      return PrintedStep.ofMany(all);
    }

    private double[][] residuals() {
      double[][] residuals = new double[sets.get(0).values().length][sets.size()];
      for (int i = 0; i < sets.size(); i++) {
        for (int j = 0; j < residuals.length; j++) {
          residuals[j][i] = sets.get(i).residuals()[j];
        }
      }
      return residuals;
    }

    private int[] placesInSchedule() {
      Integer[] order = new Integer[sets.size()];
      Arrays.setAll(order, i -> i);
      Arrays.sort(order, Comparator.comparingInt(i -> sets.get(i).slot()));
      int[] place = new int[order.length];
      for (int i = 0; i < order.length; i++) {
        place[order[i]] = i;
      }
      return place;
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
      ValueSet set = sets.get(pair.second);
      FibreId fibre = ledger.fibre(set.slot());
      FibreId other = ledger.fibre(sets.get(pair.first).slot());
      List<AssessedReading> reach = new ArrayList<>(Arrays.asList(set.readings()));
      reach.sort(Comparator.comparingInt(AssessedReading::index));
      List<Evidence> evidence = new ArrayList<>();
      evidence.add(
          Evidence.of(
              "what",
              "all "
                  + Steps.count(set.values().length, "value")
                  + (set.hasLength() ? " and the length" : "")
                  + " cannot be told from a repeat of "
                  + other
                  + (pair.list > 1 ? ", in a list of " + pair.list + " that repeats" : "")));
      evidence.add(Evidence.of("equal_to", other.toString()));
      evidence.add(Evidence.of("values_equal", set.values().length));
      if (set.hasLength()) {
        evidence.add(Evidence.of("length_m", set.lengthM()));
      }
      evidence.add(Evidence.of("fibres_in_list", pair.list));
      evidence.add(Evidence.of("tests_between", pair.second - pair.first - 1));
      evidence.add(Evidence.of("coincidences_expected", pair.expected));
      evidence.add(
          Evidence.of(
              "first_loss_db",
              Decibels.shown(set.readings()[0].lossDb())
                  + " dB at "
                  + set.readings()[0].caseShown()));
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
                  set.link().a().where(),
                  Handling.RETEST_LINK)
              .withResults(
                  "The retest differs from the values on record in a case"
                      + Steps.beyondChance(reach),
                  "It agrees with them in every case: a coincidence"));
    }
  }

  /** Values as a key: to the last digit handed in. */
  private static final class ValueSetKey {
    private final double[] values;

    ValueSetKey(ValueSet set) {
      this.values = set.values();
    }

    @Override
    public boolean equals(@Nullable Object other) {
      return other instanceof ValueSetKey key && Arrays.equals(values, key.values);
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(values);
    }
  }
}
