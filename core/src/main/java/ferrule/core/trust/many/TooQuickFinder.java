package ferrule.core.trust.many;

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
import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;

/**
 * {@code too-quick}: a link was read so soon after the one before it that two ends cannot have been
 * unplugged and plugged meanwhile.
 *
 * <p>Gaps from the last reading of one link to the first of the next, of one instrument in one
 * operator's hands, are held against {@value #HUMAN_S} s (common practice, no source) and against
 * the pace of those very hands; a gap must fall below both. Where gaps are short as a rule, or
 * stamps are whole minutes or alike for many links, they say nothing of the handling and nothing
 * rings. The fibres of one link come together honestly; they are looked at in the same way only
 * where their own pace shows that each was plugged by itself.
 */
public final class TooQuickFinder implements DoubtFinder {

  /** Two ends unplugged and plugged: not below this, seconds. Common practice, no source. */
  static final double HUMAN_S = 15;

  /** A fifth of one ring in 200 honest jobs. */
  private static final double CHANCE_OF_RINGING = 0.001;

  private static final int ENOUGH = 20;

  /** Gaps are handling only if half of them are at least this long, seconds. */
  private static final double HANDLED_S = 2 * HUMAN_S;

  private static final double MOST_SHARE = 0.25;

  /** An honest pace is never taken as steadier than this, in parts of itself. */
  private static final double LEAST_SPREAD = 0.15;

  /** The moment between two fibres read one after the other. */
  private record Gap(AssessedReading before, AssessedReading after, double seconds) {}

  private record Quick(Gap gap, double threshold, double median, int gaps) {}

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Map<Integer, Doubt> bySlot = new TreeMap<>();
    byHands(ledger).forEach(readings -> look(ledger, readings, bySlot));
    bySlot.values().forEach(out);
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    long looks = 0;
    double chance = 0;
    for (List<AssessedReading> readings : byHands(ledger)) {
      for (List<Gap> gaps : gaps(readings)) {
        if (gaps.size() >= ENOUGH) {
          looks += gaps.size();
          chance += CHANCE_OF_RINGING;
        }
      }
    }
    return looks == 0
        ? List.of()
        : List.of(new AlarmShare(DoubtKind.TOO_QUICK, false, looks, chance));
  }

  /** Readings of each pair of hands at each instrument whose clock can be believed. */
  private static List<List<AssessedReading>> byHands(Ledger ledger) {
    List<List<AssessedReading>> byHands = new ArrayList<>();
    Instruments.readings(ledger)
        .forEach(
            (instrument, readings) -> {
              // A clock that runs wrong says nothing of the pace.
              if (ImpossibleTimes.of(readings).isEmpty()) {
                byHands.addAll(byOperator(readings));
              }
            });
    return byHands;
  }

  private static Collection<List<AssessedReading>> byOperator(List<AssessedReading> readings) {
    Map<String, List<AssessedReading>> byOperator = new LinkedHashMap<>();
    for (AssessedReading reading : readings) {
      byOperator.computeIfAbsent(reading.reading().operator(), k -> new ArrayList<>()).add(reading);
    }
    return byOperator.values();
  }

  private static void look(
      Ledger ledger, List<AssessedReading> readings, Map<Integer, Doubt> bySlot) {
    for (List<Gap> gaps : gaps(readings)) {
      for (Quick quick : quick(gaps)) {
        doubts(ledger, readings, quick, bySlot);
      }
    }
  }

  /** Gaps between links, and gaps within them; none where times cannot tell. */
  private static List<List<Gap>> gaps(List<AssessedReading> readings) {
    if (readings.size() <= ENOUGH || areWholeMinutes(readings)) {
      return List.of();
    }
    readings.sort(
        Comparator.comparing((AssessedReading r) -> r.reading().measuredAt())
            .thenComparing(r -> r.reading().link())
            .thenComparingInt(r -> r.reading().fibre())
            .thenComparingInt(AssessedReading::index));
    List<Gap> betweenLinks = new ArrayList<>();
    List<Gap> withinLinks = new ArrayList<>();
    for (int i = 1; i < readings.size(); i++) {
      AssessedReading before = readings.get(i - 1);
      AssessedReading after = readings.get(i);
      boolean sameLink = before.reading().link().equals(after.reading().link());
      if (!sameLink || before.reading().fibre() != after.reading().fibre()) {
        (sameLink ? withinLinks : betweenLinks)
            .add(new Gap(before, after, Times.seconds(after) - Times.seconds(before)));
      }
    }
    return List.of(betweenLinks, withinLinks);
  }

  private static boolean areWholeMinutes(List<AssessedReading> readings) {
    int whole = 0;
    for (AssessedReading reading : readings) {
      whole += reading.reading().measuredAt().getEpochSecond() % 60 == 0 ? 1 : 0;
    }
    return whole > 0.5 * readings.size();
  }

  private static List<Quick> quick(List<Gap> gaps) {
    List<Quick> quick = new ArrayList<>();
    if (gaps.size() < ENOUGH) {
      return quick;
    }
    double[] sorted = gaps.stream().mapToDouble(Gap::seconds).sorted().toArray();
    double median = OrderStats.quantile(sorted, 0.5);
    double threshold = threshold(sorted, median);
    if (median < HANDLED_S || threshold < 1) {
      return quick;
    }
    for (Gap gap : gaps) {
      if (gap.seconds() < threshold) {
        quick.add(new Quick(gap, threshold, median, gaps.size()));
      }
    }
    return quick.size() > MOST_SHARE * gaps.size() ? List.of() : quick;
  }

  /**
   * Below this a gap is out of line with the pace: the quick half of the gaps taken as log-normal,
   * its spread from the quartile, the tenth and the twentieth part, whichever is steadiest, for
   * what is out of line must not widen it.
   */
  private static double threshold(double[] sorted, double median) {
    double spread = Double.POSITIVE_INFINITY;
    for (double share : new double[] {0.25, 0.10, 0.05}) {
      double low = OrderStats.quantile(sorted, share);
      if (low > 0) {
        spread = Math.min(spread, Math.log(median / low) / Conformity.coverage(1 - share));
      }
    }
    double level = Conformity.alarmLevel(sorted.length, CHANCE_OF_RINGING, false);
    return Math.min(HUMAN_S, median * Math.exp(-level * Math.max(LEAST_SPREAD, spread)));
  }

  /** One doubt for each fibre of the later link that was read too soon after the link before. */
  private static void doubts(
      Ledger ledger, List<AssessedReading> byTime, Quick quick, Map<Integer, Doubt> bySlot) {
    Gap gap = quick.gap();
    String link = gap.after().reading().link();
    boolean between = !gap.before().reading().link().equals(link);
    double left = Times.seconds(gap.before());
    Set<Integer> seen = new HashSet<>();
    for (int i = Math.max(0, lowerBound(byTime, gap.after())); i < byTime.size(); i++) {
      AssessedReading reading = byTime.get(i);
      if (!reading.reading().link().equals(link)
          || Times.seconds(reading) - left >= quick.threshold()
          || (!between && reading.reading().fibre() != gap.after().reading().fibre())) {
        break;
      }
      if (reading.slot() >= 0 && seen.add(reading.slot()) && !bySlot.containsKey(reading.slot())) {
        List<AssessedReading> reach =
            ledger.readings(reading.slot()).stream().filter(AssessedReading::current).toList();
        bySlot.put(
            reading.slot(), doubt(ledger, reading, quick, Times.seconds(reading) - left, reach));
      }
    }
  }

  private static int lowerBound(List<AssessedReading> byTime, AssessedReading reading) {
    double at = Times.seconds(reading);
    int low = 0;
    int high = byTime.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (Times.seconds(byTime.get(middle)) < at) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    while (low < byTime.size() && byTime.get(low) != reading) {
      low++;
    }
    return low;
  }

  private static Doubt doubt(
      Ledger ledger,
      AssessedReading reading,
      Quick quick,
      double seconds,
      List<AssessedReading> reach) {
    FibreId fibre = ledger.fibre(reading.slot());
    FibreId before = quick.gap().before().reading().fibreId();
    return new Doubt(
        DoubtKind.TOO_QUICK,
        Subject.fibre(fibre),
        false,
        Reach.of(reach),
        List.of(
            Evidence.of(
                "what",
                Math.round(seconds)
                    + " s after "
                    + before
                    + "; half of all took "
                    + Math.round(quick.median())
                    + " s or more"),
            Evidence.of("after", before.toString()),
            Evidence.of("gap_s", seconds),
            Evidence.of("threshold_s", quick.threshold()),
            Evidence.of("usual_gap_s", quick.median()),
            Evidence.of("gaps", quick.gaps())),
        Causes.ranked(
            "one link was read under two names",
            "rows were handed in under another name",
            "the link was plugged beforehand, by more hands or a fixture"),
        new NextStep(
                "witness:" + fibre.link(),
                "Ask how link "
                    + fibre.link()
                    + " was read so soon after "
                    + before.link()
                    + "; a witnessed retest is suggested",
                ledger.link(reading.slot()).a().where(),
                Handling.RETEST_LINK)
            .withResults(
                "The retest of "
                    + fibre.link()
                    + " differs from its readings on record"
                    + Steps.beyondChance(reach),
                "It agrees with them: the link was read as it says"));
  }
}
