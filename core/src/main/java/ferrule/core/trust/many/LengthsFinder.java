package ferrule.core.trust.many;

import ferrule.core.trust.AlarmShare;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Ledger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.IntPredicate;

/**
 * Lengths and identity: {@code length-scale}, {@code length-offset}, {@code port-shift}, {@code
 * crossed} and {@code length-gap}. What an earlier one explains no later one says again.
 *
 * <p>A line that all lengths share and a panel that is moved hide each other, so they are found in
 * turn: a first line, the shifts that it shows, the line again with every fibre held against the
 * link that was really read.
 */
public final class LengthsFinder implements DoubtFinder {

  private static final int LEAST_FIBRES = 8;

  /** Fewer ports of a row are not taken to be moved for a first guess. */
  private static final int LEAST_PORTS = 4;

  /** Part of the ports off the line that must agree how far they are moved. */
  private static final double AGREE = 0.6;

  private static final double FOLLOW = 0.5;
  private static final double FOLLOW_NOT = 0.3;
  private static final double AS_LIKELY = Math.log(20);

  /** A shift, and the places that it may as well be at. */
  record Placed(PortShift shift, List<String> alsoAt) {}

  /** A regression over some fibres and what it says. */
  private record Lengths(LengthRegression regression, LengthSetting setting) {
    Lengths(LengthRegression regression, long fibres) {
      this(regression, LengthSetting.of(regression, fibres));
    }

    Lengths(LengthProfile profile, int[] truth, BitSet leftOut) {
      this(LengthsFinder.regression(profile, truth, leftOut), lengths(profile, leftOut));
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    if (ledger.slots() == 0) {
      return;
    }
    LengthProfile profile = new LengthProfile(ledger);
    List<PortRow> rows = PortRow.of(ledger.job().links());
    BitSet none = new BitSet();
    int[] own = new int[profile.links()];
    Arrays.setAll(own, link -> link);

    int[] guess = rowsMoved(profile, rows, firstGuess(profile, rows, own));
    LengthRegression byGuess = regression(profile, guess, none);
    BitSet apart = zerosApart(profile, byGuess, guess);
    BitSet others = complement(apart, profile.slots());
    Lengths roughly =
        apart.isEmpty()
            ? new Lengths(byGuess, lengths(profile, apart))
            : new Lengths(profile, guess, apart);
    Lengths roughlyApart = new Lengths(profile, guess, others);
    FibreMisfit rough = misfit(profile, roughly, roughlyApart, apart, guess, byGuess);
    List<PortShift> moved = PortShifts.in(profile, rough, rows);
    int[] truth = truth(own, accepted(moved));

    // Where nothing moved, what was found roughly is what there is to find.
    boolean settled = Arrays.equals(truth, guess);
    Lengths common = settled ? roughly : new Lengths(profile, truth, apart);
    Lengths commonApart = settled ? roughlyApart : new Lengths(profile, truth, others);
    FibreMisfit misfit =
        settled ? rough : misfit(profile, common, commonApart, apart, truth, byGuess);
    LengthSetting setting = common.setting();
    LengthSetting settingApart = commonApart.setting();
    SettingDoubts.find(profile, setting, common.regression(), apart, out);
    SettingDoubts.find(profile, settingApart, commonApart.regression(), others, out);
    BitSet explained = new BitSet();
    for (Placed placed : placed(settled ? moved : PortShifts.in(profile, misfit, rows))) {
      explained.or(placed.shift().slots());
      out.accept(IdentityDoubts.shift(profile, placed));
    }
    for (CrossedPair pair : CrossedFibres.in(profile, misfit, explained)) {
      explained.set(pair.first());
      explained.set(pair.second());
      IdentityDoubts.crossed(profile, misfit, pair, out);
    }
    LengthLine line = setting.found() ? setting.line() : LengthLine.STRAIGHT;
    LengthLine lineApart = settingApart.found() ? settingApart.line() : LengthLine.STRAIGHT;
    new LengthGaps(profile, misfit, slot -> apart.get(slot) ? lineApart : line)
        .find(explained, out);
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    if (ledger.slots() == 0) {
      return List.of();
    }
    long fibres = lengths(new LengthProfile(ledger), new BitSet());
    if (fibres == 0) {
      return List.of();
    }
    List<AlarmShare> shares = new ArrayList<>();
    shares.add(
        new AlarmShare(
            List.of(DoubtKind.LENGTH_SCALE, DoubtKind.LENGTH_OFFSET),
            false,
            2,
            LengthSetting.CHANCE));
    long runs = PortShifts.looks(PortRow.of(ledger.job().links()));
    if (runs > 0) {
      shares.add(new AlarmShare(DoubtKind.PORT_SHIFT, true, runs, PortShifts.CHANCE));
    }
    shares.add(new AlarmShare(DoubtKind.CROSSED, true, fibres, CrossedFibres.CHANCE));
    shares.add(new AlarmShare(DoubtKind.LENGTH_GAP, false, fibres, LengthGaps.CHANCE));
    return shares;
  }

  private static FibreMisfit misfit(
      LengthProfile profile,
      Lengths common,
      Lengths ofApart,
      BitSet apart,
      int[] truth,
      LengthRegression all) {
    return new FibreMisfit(
        profile, common.setting().line(), ofApart.setting().line(), apart, truth, all.stepM());
  }

  /** A regression over the fibres that are not left out, each against the link really read. */
  private static LengthRegression regression(LengthProfile profile, int[] truth, BitSet leftOut) {
    double[] scheduled = new double[profile.links()];
    double[] measured = new double[profile.links()];
    for (int link = 0; link < scheduled.length; link++) {
      scheduled[link] = truth[link] < 0 ? Double.NaN : profile.scheduledM(truth[link]);
      measured[link] =
          leftOut.isEmpty()
              ? profile.medianOf(link)
              : profile.medianOf(link, slot -> !leftOut.get(slot));
    }
    return new LengthRegression(scheduled, measured);
  }

  private static long lengths(LengthProfile profile, BitSet leftOut) {
    long count = 0;
    for (int slot = 0; slot < profile.slots(); slot++) {
      count += profile.hasLength(slot) && !leftOut.get(slot) ? 1 : 0;
    }
    return count;
  }

  /**
   * Which link was read under which name, to start with: its own where half the lengths follow one
   * line so; else, of all ports moved by one or two places, what follows one line best.
   */
  private static int[] firstGuess(LengthProfile profile, List<PortRow> rows, int[] own) {
    BitSet none = new BitSet();
    int[] best = own;
    double share = regression(profile, own, none).bestShare();
    if (share >= FOLLOW) {
      return own;
    }
    for (int lag : new int[] {1, -1, 2, -2}) {
      for (boolean last : new boolean[] {false, true}) {
        int[] moved = moved(profile, rows, lag, last);
        double movedShare = regression(profile, moved, none).bestShare();
        if (movedShare > share) {
          best = moved;
          share = movedShare;
        }
      }
    }
    return best;
  }

  /** Every link moved along the first, or the last, of the rows that hold it. */
  private static int[] moved(LengthProfile profile, List<PortRow> rows, int lag, boolean last) {
    int[] moved = new int[profile.links()];
    BitSet done = new BitSet();
    Arrays.fill(moved, -1);
    for (PortRow row : rows) {
      for (int at = 0; at < row.size(); at++) {
        int link = row.links()[at];
        if (last || !done.get(link)) {
          done.set(link);
          int other = at + lag;
          moved[link] = other < 0 || other >= row.size() ? -1 : row.links()[other];
        }
      }
    }
    return moved;
  }

  /**
   * A guess with those links of a row moved that lie off the line of the job under their own names
   * and along it as many places on, by that number of places that most of them agree on: else the
   * longest cables, if they are the ones moved, would pass for the job's own scatter.
   */
  private static int[] rowsMoved(LengthProfile profile, List<PortRow> rows, int[] guess) {
    LengthRegression regression = regression(profile, guess, new BitSet());
    int[] moved = guess.clone();
    for (PortRow row : rows) {
      BitSet off = new BitSet();
      for (int at = 0; at < row.size(); at++) {
        double measured = profile.medianOf(row.links()[at]);
        off.set(at, !Double.isNaN(measured) && !along(profile, regression, row, at, at));
      }
      double most = Math.max(LEAST_PORTS, AGREE * off.cardinality()) - 0.5;
      for (int lag : new int[] {1, -1, 2, -2}) {
        BitSet agree = new BitSet();
        off.stream().forEach(at -> agree.set(at, along(profile, regression, row, at, at + lag)));
        if (agree.cardinality() > most) {
          most = agree.cardinality();
          agree.stream().forEach(at -> moved[row.links()[at]] = row.links()[at + lag]);
        }
      }
    }
    return moved;
  }

  /** Whether the length read at one place of a row is that scheduled at another. */
  private static boolean along(
      LengthProfile profile, LengthRegression regression, PortRow row, int at, int other) {
    return other >= 0
        && other < row.size()
        && regression.isAlong(
            profile.scheduledM(row.links()[other]), profile.medianOf(row.links()[at]));
  }

  private static List<PortShift> accepted(List<PortShift> shifts) {
    BitSet taken = new BitSet();
    List<PortShift> accepted = new ArrayList<>();
    for (PortShift shift : shifts) {
      if (!shift.slots().intersects(taken)) {
        taken.or(shift.slots());
        accepted.add(shift);
      }
    }
    return accepted;
  }

  private static int[] truth(int[] own, List<PortShift> shifts) {
    int[] truth = own.clone();
    for (PortShift shift : shifts) {
      for (int at = shift.from(); at < shift.to(); at++) {
        truth[shift.row().links()[at]] = shift.truth(at);
      }
    }
    return truth;
  }

  /**
   * The shifts to name: the most certain, and beside it those at other places that reach the same
   * fibres and are as likely within 20 to 1.
   */
  private static List<Placed> placed(List<PortShift> shifts) {
    List<Placed> placed = new ArrayList<>();
    for (PortShift best : accepted(shifts)) {
      List<PortShift> same =
          shifts.stream()
              .filter(
                  s -> s.slots().equals(best.slots()) && best.logRatio() - s.logRatio() < AS_LIKELY)
              .toList();
      for (PortShift shift : same) {
        placed.add(
            new Placed(
                shift, same.stream().filter(s -> s != shift).map(s -> s.row().place()).toList()));
      }
    }
    return placed;
  }

  /**
   * The fibres under zeros whose lengths do not follow the line of the others, but one of their
   * own: an instrument with a setting of its own.
   */
  private static BitSet zerosApart(LengthProfile profile, LengthRegression all, int[] truth) {
    LengthLine line = all.start();
    int[] size = new int[profile.zeros()];
    int[] following = new int[profile.zeros()];
    for (int slot = 0; slot < profile.slots(); slot++) {
      int link = truth[profile.linkOf(slot)];
      if (profile.hasLength(slot) && link >= 0) {
        int zero = profile.zeroOfLength(slot);
        size[zero]++;
        double scheduled = profile.scheduledM(link);
        double gap = Math.abs(line.back(profile.measuredM(slot)) - scheduled);
        following[zero] += gap <= 1 + 0.005 * scheduled + all.stepM() / 4 ? 1 : 0;
      }
    }
    BitSet apart = new BitSet();
    for (BitSet slots : slotsUnder(profile, truth, zero -> isApart(size[zero], following[zero]))) {
      LengthRegression own = of(profile, truth, slots);
      if (own.fits(LengthSetting.of(own, slots.cardinality()).line())) {
        apart.or(slots);
      }
    }
    return apart;
  }

  private static boolean isApart(int fibres, int following) {
    return fibres >= LEAST_FIBRES && following < FOLLOW_NOT * fibres;
  }

  /** The fibres under each of some zeros that have a length and whose link is known. */
  private static Collection<BitSet> slotsUnder(
      LengthProfile profile, int[] truth, IntPredicate which) {
    Map<Integer, BitSet> byZero = new HashMap<>();
    for (int slot = 0; slot < profile.slots(); slot++) {
      if (profile.hasLength(slot)
          && truth[profile.linkOf(slot)] >= 0
          && which.test(profile.zeroOfLength(slot))) {
        byZero.computeIfAbsent(profile.zeroOfLength(slot), k -> new BitSet()).set(slot);
      }
    }
    return byZero.values();
  }

  /** A regression over some fibres; only their links are looked at. */
  private static LengthRegression of(LengthProfile profile, int[] truth, BitSet slots) {
    double[] scheduled = new double[slots.cardinality()];
    double[] measured = new double[scheduled.length];
    int size = 0;
    for (int slot = slots.nextSetBit(0); slot >= 0; ) {
      int link = profile.linkOf(slot);
      scheduled[size] = profile.scheduledM(truth[link]);
      measured[size++] = profile.medianOf(link, slots::get);
      slot = slots.nextSetBit(profile.endSlot(link));
    }
    return new LengthRegression(Arrays.copyOf(scheduled, size), Arrays.copyOf(measured, size));
  }

  private static BitSet complement(BitSet slots, int size) {
    BitSet rest = new BitSet(size);
    rest.set(0, size);
    rest.andNot(slots);
    return rest;
  }
}
