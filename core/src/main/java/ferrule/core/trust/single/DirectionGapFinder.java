package ferrule.core.trust.single;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.AlarmShare;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.uncertainty.Conformity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code direction-gap}: A-B and B-A of one fibre differ beyond the uncertainty of a difference.
 *
 * <p>An offset that all fibres share is not of the fibre and is taken out first (the median over
 * the job's fibres of the same kind, wavelength and pair of zeros, from twelve fibres on). What is
 * left is compared with 0.20 dB single-mode or 0.30 dB multimode (common practice), or with the
 * honest scatter of this very job times the alarm level for the number of fibres looked at, if that
 * is more: a job of 400 fibres must not ring by chance. The scatter is robust (1.4826 times the
 * median absolute deviation), at least 0.04 dB; with fewer than twelve fibres 0.08 dB single-mode,
 * 0.11 multimode.
 */
public final class DirectionGapFinder implements DoubtFinder {

  private static final int ENOUGH = 12;
  private static final double CHANCE_OF_RINGING = 0.005;
  private static final double LEAST_SCATTER_DB = 0.04;

  private final LossCauses causes;

  /** Gaps between directions, beside the causes of the job's losses. */
  public DirectionGapFinder(LossCauses causes) {
    this.causes = causes;
  }

  private record Group(FibreKind kind, Wavelength wavelength, String forward, String back) {}

  /** Gaps of one group; numbers only, for there may be hundreds of thousands. */
  private static final class Gaps {
    private final Group group;
    private double[] db = new double[16];
    private int[] slots = new int[16];
    private int size;

    Gaps(Group group) {
      this.group = group;
    }

    void add(int slot, double gapDb) {
      if (size == db.length) {
        db = Arrays.copyOf(db, size * 2);
        slots = Arrays.copyOf(slots, size * 2);
      }
      db[size] = gapDb;
      slots[size++] = slot;
    }

    boolean takes(FibreKind kind, AssessedReading forward, AssessedReading back) {
      return group.kind() == kind
          && group.forward().equals(forward.reading().reference())
          && group.back().equals(back.reading().reference());
    }
  }

  private record Gap(AssessedReading forward, AssessedReading back) {
    double db() {
      return forward.lossDb() - back.lossDb();
    }
  }

  private record Odd(Gap gap, double own, double threshold) {
    double ratio() {
      return Math.abs(own) / threshold;
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Map<Group, Gaps> groups = new LinkedHashMap<>();
    @Nullable Gaps[] open = new Gaps[Wavelength.LONGEST_NM + 1];
    long looks = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      List<AssessedReading> readings = ledger.readings(slot);
      for (AssessedReading forward : readings) {
        AssessedReading back = opposite(readings, forward);
        if (back == null) {
          continue;
        }
        looks++;
        // Neighbouring fibres are mostly of one group for each wavelength: it is kept open.
        FibreKind kind = ledger.link(slot).category().kind();
        Gaps last = open[forward.nm()];
        if (last == null || !last.takes(kind, forward, back)) {
          Group group =
              new Group(
                  kind,
                  forward.reading().wavelength(),
                  forward.reading().reference(),
                  back.reading().reference());
          last = groups.computeIfAbsent(group, Gaps::new);
          open[forward.nm()] = last;
        }
        last.add(slot, forward.lossDb() - back.lossDb());
      }
    }
    double level = Conformity.alarmLevel(looks, CHANCE_OF_RINGING, true);
    Map<Integer, Odd> worst = new TreeMap<>();
    groups.forEach((group, gaps) -> odd(ledger, group, gaps, level, worst));
    worst.forEach((slot, odd) -> out.accept(doubt(ledger, slot, odd)));
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    long looks = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      List<AssessedReading> readings = ledger.readings(slot);
      for (AssessedReading forward : readings) {
        looks += opposite(readings, forward) == null ? 0 : 1;
      }
    }
    return looks == 0
        ? List.of()
        : List.of(new AlarmShare(DoubtKind.DIRECTION_GAP, false, looks, CHANCE_OF_RINGING));
  }

  private static @Nullable AssessedReading opposite(
      List<AssessedReading> readings, AssessedReading forward) {
    if (!forward.forward() || !forward.current() || !forward.hasLoss()) {
      return null;
    }
    for (AssessedReading other : readings) {
      if (!other.forward() && other.nm() == forward.nm() && other.current() && other.hasLoss()) {
        return other;
      }
    }
    return null;
  }

  private static void odd(
      Ledger ledger, Group group, Gaps gaps, double level, Map<Integer, Odd> worst) {
    boolean multimode = group.kind() == FibreKind.MULTIMODE;
    double centre = 0;
    double scatter = multimode ? 0.11 : 0.08;
    if (gaps.size >= ENOUGH) {
      double[] values = Arrays.copyOf(gaps.db, gaps.size);
      Arrays.sort(values);
      centre = values[values.length / 2];
      for (int i = 0; i < values.length; i++) {
        values[i] = Math.abs(values[i] - centre);
      }
      Arrays.sort(values);
      scatter = Math.max(LEAST_SCATTER_DB, 1.4826 * values[values.length / 2]);
    }
    double threshold = Math.max(multimode ? 0.30 : 0.20, level * scatter);
    for (int i = 0; i < gaps.size; i++) {
      if (Math.abs(gaps.db[i] - centre) > threshold) {
        int slot = gaps.slots[i];
        Odd odd = new Odd(gap(ledger, slot, group.wavelength()), gaps.db[i] - centre, threshold);
        worst.merge(slot, odd, (a, b) -> a.ratio() >= b.ratio() ? a : b);
      }
    }
  }

  private static Gap gap(Ledger ledger, int slot, Wavelength wavelength) {
    for (AssessedReading forward : ledger.readings(slot)) {
      if (forward.nm() == wavelength.nm()) {
        AssessedReading back = opposite(ledger.readings(slot), forward);
        if (back != null) {
          return new Gap(forward, back);
        }
      }
    }
    throw new IllegalStateException("The pair that gave the gap is gone");
  }

  private Doubt doubt(Ledger ledger, int slot, Odd odd) {
    FibreId fibre = ledger.fibre(slot);
    Gap gap = odd.gap();
    List<AssessedReading> reach =
        ledger.readings(slot).stream()
            .filter(
                r ->
                    r.current()
                        && r.reading().wavelength().equals(gap.forward().reading().wavelength()))
            .toList();
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            Decibels.shown(gap.forward().lossDb())
                + " dB A-B against "
                + Decibels.shown(gap.back().lossDb())
                + " dB B-A at "
                + gap.forward().reading().wavelength()));
    evidence.add(Evidence.of("a_b_db", gap.forward().lossDb()));
    evidence.add(Evidence.of("b_a_db", gap.back().lossDb()));
    evidence.add(Evidence.of("gap_db", gap.db()));
    evidence.add(Evidence.of("gap_beyond_common_db", odd.own()));
    evidence.add(Evidence.of("threshold_db", odd.threshold()));
    evidence.addAll(causes.evidence(slot));
    return new Doubt(
        DoubtKind.DIRECTION_GAP,
        Subject.fibre(fibre),
        false,
        Reach.of(reach),
        evidence,
        causes.told(slot),
        causes.next(
            slot,
            Steps.cleanAndRetest(fibre, ledger.link(slot))
                .withResults(
                    "Once clean, the directions differ by "
                        + Decibels.shown(odd.threshold())
                        + " dB or less"
                        + beyondCommon(odd)
                        + ": it was dirt",
                    "They differ by more with clean ends: look for a bend or, in"
                        + " multimode, another core")));
  }

  /** What all fibres of the two zeros share is not of this fibre. */
  private static String beyondCommon(Odd odd) {
    double common = odd.gap().db() - odd.own();
    return Math.abs(common) < 0.005
        ? ""
        : " beyond the " + Decibels.shown(common) + " dB that all share";
  }
}
