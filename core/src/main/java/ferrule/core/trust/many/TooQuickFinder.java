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
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code too-quick}: a link was read so soon after the one before it that two ends cannot have been
 * unplugged and plugged meanwhile.
 *
 * <p>Gaps from the last reading of one link to the first of the next, of one instrument in one
 * operator's hands, are held against {@value Pace#HUMAN_S} s (common practice, no source) and
 * against the pace of those very hands; a gap must fall below both. Where gaps are short as a rule,
 * or stamps are whole minutes or alike for many links, they say nothing of the handling and nothing
 * rings. The fibres of one link come together honestly; they are looked at in the same way only
 * where their own pace shows that each was plugged by itself.
 */
public final class TooQuickFinder implements DoubtFinder {

  private static final Comparator<AssessedReading> BY_FIBRE =
      Comparator.comparing((AssessedReading r) -> r.reading().link())
          .thenComparingInt(r -> r.reading().fibre())
          .thenComparingInt(AssessedReading::index);

  private final Timeline timeline;

  /** A finder for the ledger of this timeline. */
  public TooQuickFinder(Timeline timeline) {
    this.timeline = timeline;
  }

  /**
   * The moments between two fibres read one after the other.
   *
   * @param after for each the place of the later reading in order of time
   * @param seconds for each
   */
  private record Gaps(int[] after, double[] seconds) {
    int size() {
      return after.length;
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    @Nullable Doubt[] bySlot = new Doubt[ledger.slots()];
    hands(ledger).forEach(hands -> hands.look(bySlot));
    for (Doubt doubt : bySlot) {
      if (doubt != null) {
        out.accept(doubt);
      }
    }
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    long looks = 0;
    double chance = 0;
    for (Hands hands : hands(ledger)) {
      for (Gaps gaps : hands.gaps()) {
        if (gaps.size() >= Pace.ENOUGH) {
          looks += gaps.size();
          chance += Pace.CHANCE_OF_RINGING;
        }
      }
    }
    return looks == 0
        ? List.of()
        : List.of(new AlarmShare(DoubtKind.TOO_QUICK, false, looks, chance));
  }

  /** Readings of each pair of hands at each instrument whose clock can be believed. */
  private List<Hands> hands(Ledger ledger) {
    List<Hands> hands = new ArrayList<>();
    for (Timeline.Checked checked : timeline.clocks()) {
      // A clock that runs wrong says nothing of the pace.
      if (checked.impossible().isEmpty()) {
        for (int[] byTime : byOperator(ledger, checked.clock())) {
          hands.add(new Hands(ledger, timeline.moments(), byTime));
        }
      }
    }
    return hands;
  }

  /**
   * The readings of a clock in order of time by operator, whoever is named first in the order
   * handed in coming first.
   */
  private static List<int[]> byOperator(Ledger ledger, Clock clock) {
    Map<String, Indexes> byOperator = new LinkedHashMap<>();
    share(ledger, clock.readings(), byOperator);
    if (byOperator.size() == 1) {
      return List.of(clock.byTime().clone());
    }
    if (!Arrays.equals(clock.readings(), clock.byTime())) {
      byOperator.replaceAll((operator, readings) -> new Indexes());
      share(ledger, clock.byTime(), byOperator);
    }
    return byOperator.values().stream().map(Indexes::toArray).toList();
  }

  private static void share(Ledger ledger, int[] readings, Map<String, Indexes> byOperator) {
    List<AssessedReading> all = ledger.readings();
    @Nullable Indexes open = null;
    String last = "";
    for (int reading : readings) {
      String operator = all.get(reading).reading().operator();
      if (open == null || !operator.equals(last)) {
        open = byOperator.computeIfAbsent(operator, k -> new Indexes());
        last = operator;
      }
      open.add(reading);
    }
  }

  /** The readings of one operator with one instrument. */
  private static final class Hands {
    private final Ledger ledger;
    private final List<AssessedReading> readings;
    private final Moments moments;

    /** By time; of one instant, by link and fibre. */
    private final int[] order;

    Hands(Ledger ledger, Moments moments, int[] byTime) {
      this.ledger = ledger;
      this.readings = ledger.readings();
      this.moments = moments;
      this.order = byTime;
    }

    /** Gaps between links, and gaps within them; none where times cannot tell. */
    List<Gaps> gaps() {
      if (order.length <= Pace.ENOUGH || moments.areWholeMinutes(order, order.length)) {
        return List.of();
      }
      sortInstants();
      return List.of(gaps(false), gaps(true));
    }

    void look(@Nullable Doubt[] bySlot) {
      List<Gaps> looked = gaps();
      boolean together = looked.isEmpty() || !Pace.isHandling(looked.get(1).seconds());
      for (Gaps gaps : looked) {
        Pace pace = Pace.of(gaps.seconds());
        for (int i = 0; i < gaps.size(); i++) {
          if (gaps.seconds()[i] < pace.threshold()) {
            doubts(gaps.after()[i], pace, together, bySlot);
          }
        }
      }
    }

    /** Puts readings of one instant in the order of link and fibre. */
    private void sortInstants() {
      for (int from = 0; from < order.length; ) {
        int to = from + 1;
        boolean ascending = true;
        while (to < order.length && moments.atOnce(order[from], order[to])) {
          ascending &= isInOrder(order[to - 1], order[to]);
          to++;
        }
        if (!ascending) {
          AssessedReading[] atOnce = new AssessedReading[to - from];
          for (int i = 0; i < atOnce.length; i++) {
            atOnce[i] = readings.get(order[from + i]);
          }
          Arrays.sort(atOnce, BY_FIBRE);
          for (int i = 0; i < atOnce.length; i++) {
            order[from + i] = atOnce[i].index();
          }
        }
        from = to;
      }
    }

    private boolean isInOrder(int one, int other) {
      return moments.link(one) == moments.link(other)
          ? moments.fibre(one) <= moments.fibre(other)
          : BY_FIBRE.compare(readings.get(one), readings.get(other)) <= 0;
    }

    /** From fibre to fibre of a link, or from the last of one link to the first of the next. */
    private Gaps gaps(boolean withinLink) {
      int size = 0;
      for (int i = 1; i < order.length; i++) {
        size += isGap(i, withinLink) ? 1 : 0;
      }
      Gaps gaps = new Gaps(new int[size], new double[size]);
      for (int i = 1, gap = 0; gap < size; i++) {
        if (isGap(i, withinLink)) {
          gaps.after()[gap] = i;
          gaps.seconds()[gap++] = moments.seconds(order[i]) - moments.seconds(order[i - 1]);
        }
      }
      return gaps;
    }

    private boolean isGap(int after, boolean withinLink) {
      int one = order[after - 1];
      int other = order[after];
      boolean sameLink = moments.link(one) == moments.link(other);
      return sameLink == withinLink && (!sameLink || moments.fibre(one) != moments.fibre(other));
    }

    /**
     * One doubt for each fibre of the later link that was read too soon after the link before; for
     * all that were read with it where the fibres of a link are plugged together.
     */
    private void doubts(int after, Pace pace, boolean together, @Nullable Doubt[] bySlot) {
      int link = moments.link(order[after]);
      int before = order[after - 1];
      boolean between = moments.link(before) != link;
      double left = moments.seconds(before);
      for (int i = after; i < order.length; i++) {
        double seconds = moments.seconds(order[i]) - left;
        if (moments.link(order[i]) != link
            || (seconds >= pace.threshold() && !together)
            || (!between && moments.fibre(order[i]) != moments.fibre(order[after]))) {
          break;
        }
        int slot = readings.get(order[i]).slot();
        if (slot >= 0 && bySlot[slot] == null) {
          bySlot[slot] =
              doubt(ledger, slot, readings.get(before).reading().fibreId(), pace, seconds);
        }
      }
    }
  }

  private static Doubt doubt(Ledger ledger, int slot, FibreId before, Pace pace, double seconds) {
    List<AssessedReading> reach =
        ledger.readings(slot).stream().filter(AssessedReading::current).toList();
    FibreId fibre = ledger.fibre(slot);
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
                    + Math.round(pace.median())
                    + " s or more"),
            Evidence.of("after", before.toString()),
            Evidence.of("gap_s", seconds),
            Evidence.of("threshold_s", pace.threshold()),
            Evidence.of("usual_gap_s", pace.median()),
            Evidence.of("gaps", pace.gaps())),
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
                ledger.link(slot).a().where(),
                Handling.RETEST_LINK)
            .withResults(
                "The retest of "
                    + fibre.link()
                    + " differs from its readings on record"
                    + Steps.beyondChance(reach),
                "It agrees with them: the link was read as it says"));
  }
}
