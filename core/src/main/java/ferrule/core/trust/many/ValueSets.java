package ferrule.core.trust.many;

import ferrule.core.allowance.Allowance;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What was handed in for the fibres that were read in the same cases, fibre by fibre in test order:
 * its values that count, direction by direction and wavelength by wavelength, and its length.
 * Others are never compared.
 */
final class ValueSets {

  /** Further from the expected loss than this, dB, an instrument's floor may speak. */
  private static final double WILD_DB = 5;

  private final Ledger ledger;

  /** The cases, A-B first, shorter wavelengths first, and last the kind of fibre. */
  private final int[] cases;

  private final int each;
  private int size;
  private int[] slot = new int[16];
  private double[] lengthM = new double[16];
  private double[] values;
  private double[] residuals;

  /** The first reading in order of time and the first in the order handed in. */
  private int[] earliest = new int[16];

  private int[] index = new int[16];
  private int[] placeInSchedule = new int[0];

  private ValueSets(Ledger ledger, int[] cases) {
    this.ledger = ledger;
    this.cases = cases;
    this.each = cases.length - 1;
    this.values = new double[16 * each];
    this.residuals = new double[16 * each];
  }

  /**
   * All sets of a ledger; without fibres that have no readings, or one that is too wild to be a
   * link's loss.
   */
  static List<ValueSets> of(Ledger ledger, Moments moments) {
    List<ValueSets> all = new ArrayList<>();
    Current current = new Current();
    for (int slot = 0; slot < ledger.slots(); slot++) {
      if (current.read(ledger, slot) && current.isTame()) {
        current.placeIn(all, ledger, slot).add(slot, current, moments);
      }
    }
    for (ValueSets sets : all) {
      sets.sort(moments);
    }
    return all;
  }

  /** The readings of one fibre that count, sorted by case; there are few. */
  private static final class Current {
    AssessedReading[] readings = new AssessedReading[4];
    int[] cases = new int[5];
    double[] residuals = new double[4];
    int size;

    /** Whether there are any. */
    boolean read(Ledger ledger, int slot) {
      size = 0;
      for (AssessedReading reading : ledger.readings(slot)) {
        if (reading.current()) {
          if (size == readings.length) {
            readings = Arrays.copyOf(readings, 2 * size);
            cases = new int[2 * size + 1];
            residuals = new double[2 * size];
          }
          int at = size++;
          while (at > 0 && order(readings[at - 1]) > order(reading)) {
            readings[at] = readings[at - 1];
            at--;
          }
          readings[at] = reading;
        }
      }
      return size > 0;
    }

    boolean isTame() {
      for (int i = 0; i < size; i++) {
        residuals[i] = residual(readings[i]);
        if (!(Math.abs(residuals[i]) < WILD_DB)) {
          return false;
        }
      }
      return true;
    }

    /** The sets of these cases; combinations of cases are few. */
    ValueSets placeIn(List<ValueSets> all, Ledger ledger, int slot) {
      for (int i = 0; i < size; i++) {
        cases[i] = 2 * order(readings[i]) + (readings[i].reading().hasLoss() ? 1 : 0);
      }
      cases[size] = ledger.link(slot).category().kind().ordinal();
      for (ValueSets sets : all) {
        if (Arrays.equals(sets.cases, 0, sets.cases.length, cases, 0, size + 1)) {
          return sets;
        }
      }
      ValueSets sets = new ValueSets(ledger, Arrays.copyOf(cases, size + 1));
      all.add(sets);
      return sets;
    }
  }

  private static int order(AssessedReading reading) {
    return reading.forward() ? reading.nm() : reading.nm() + 100_000;
  }

  private static double value(AssessedReading reading) {
    return reading.reading().hasLoss() ? reading.reading().lossDb() : reading.reading().powerDbm();
  }

  private static double residual(AssessedReading reading) {
    double expected = reading.allowance().map(Allowance::expectedDb).orElse(Double.NaN);
    return Double.isNaN(expected) ? reading.lossDb() : reading.lossDb() - expected;
  }

  private void add(int ofSlot, Current current, Moments moments) {
    if (size == slot.length) {
      slot = Arrays.copyOf(slot, 2 * size);
      lengthM = Arrays.copyOf(lengthM, 2 * size);
      earliest = Arrays.copyOf(earliest, 2 * size);
      index = Arrays.copyOf(index, 2 * size);
      values = Arrays.copyOf(values, 2 * size * each);
      residuals = Arrays.copyOf(residuals, 2 * size * each);
    }
    double length = Double.NaN;
    int first = Integer.MAX_VALUE;
    int lowest = Integer.MAX_VALUE;
    for (int i = 0; i < each; i++) {
      AssessedReading reading = current.readings[i];
      values[size * each + i] = value(reading);
      residuals[size * each + i] = current.residuals[i];
      if (Double.isNaN(length)) {
        length = reading.reading().lengthM();
      }
      first = Math.min(first, moments.rank(reading.index()));
      lowest = Math.min(lowest, reading.index());
    }
    slot[size] = ofSlot;
    lengthM[size] = length;
    earliest[size] = first;
    index[size++] = lowest;
  }

  // -- test order

  private void sort(Moments moments) {
    long[] keys = new long[size];
    boolean ascending = true;
    for (int i = 0; i < size; i++) {
      keys[i] = (long) earliest[i] << Integer.SIZE | i;
      ascending &= i == 0 || earliest[i] > earliest[i - 1];
    }
    if (!ascending) {
      Arrays.sort(keys);
    }
    sortWithinMoments(keys, moments);
    placeInSchedule = new int[size];
    int[] slots = new int[size];
    double[] lengths = new double[size];
    double[] sortedValues = new double[size * each];
    double[] sortedResiduals = new double[size * each];
    for (int i = 0; i < size; i++) {
      int from = (int) keys[i];
      placeInSchedule[i] = from;
      slots[i] = slot[from];
      lengths[i] = lengthM[from];
      for (int k = 0; k < each; k++) {
        sortedValues[i * each + k] = values[from * each + k];
        sortedResiduals[k * size + i] = residuals[from * each + k];
      }
    }
    slot = slots;
    lengthM = lengths;
    values = sortedValues;
    residuals = sortedResiduals;
  }

  /** What began at one moment is in the order handed in. */
  private void sortWithinMoments(long[] keys, Moments moments) {
    for (int from = 0; from < size; ) {
      double at = moments.seconds(moments.at(earliest[(int) keys[from]]));
      int to = from + 1;
      boolean ascending = true;
      while (to < size && moments.seconds(moments.at(earliest[(int) keys[to]])) == at) {
        ascending &= index[(int) keys[to]] > index[(int) keys[to - 1]];
        to++;
      }
      if (!ascending) {
        for (int i = from; i < to; i++) {
          keys[i] = (long) index[(int) keys[i]] << Integer.SIZE | (int) keys[i];
        }
        Arrays.sort(keys, from, to);
      }
      from = to;
    }
  }

  /** Number of sets. */
  int size() {
    return size;
  }

  /** Number of values in each. */
  int each() {
    return each;
  }

  /** The fibre of a set. */
  int slot(int set) {
    return slot[set];
  }

  /** The place of a set in the order of the schedule. */
  int placeInSchedule(int set) {
    return placeInSchedule[set];
  }

  /** Measured length, metres; NaN if none was handed in. */
  double lengthM(int set) {
    return lengthM[set];
  }

  boolean hasLength(int set) {
    return !Double.isNaN(lengthM[set]);
  }

  /** Number of the link in the schedule. */
  int link(int set) {
    return ledger.linkOf(slot[set]);
  }

  /** Scheduled length, metres. */
  double scheduledM(int set) {
    return ledger.link(slot[set]).lengthM();
  }

  /** Loss, or power where no loss was handed in; as handed in. */
  double[] values(int set) {
    return Arrays.copyOfRange(values, set * each, (set + 1) * each);
  }

  /** The values of all sets. */
  double[] allValues() {
    return values.length == size * each ? values : Arrays.copyOf(values, size * each);
  }

  /** Loss less expected loss, dB, by case, then by set. */
  double[][] residuals() {
    double[][] byCase = new double[each][];
    for (int k = 0; k < each; k++) {
      byCase[k] = Arrays.copyOfRange(residuals, k * size, (k + 1) * size);
    }
    return byCase;
  }

  /** The readings of a set, by case. */
  AssessedReading[] readings(int set) {
    Current current = new Current();
    current.read(ledger, slot[set]);
    return Arrays.copyOf(current.readings, current.size);
  }

  boolean sameValues(int one, int other) {
    for (int k = 0; k < each; k++) {
      if (Double.doubleToLongBits(values[one * each + k])
          != Double.doubleToLongBits(values[other * each + k])) {
        return false;
      }
    }
    return true;
  }

  /** Whether values are the same and lengths are too, or neither has one. */
  boolean repeats(int one, int other) {
    return sameValues(one, other) && Double.compare(lengthM[one], lengthM[other]) == 0;
  }

  /** A number that sets of the same values share. */
  long trace(int set) {
    long trace = 0;
    for (int k = 0; k < each; k++) {
      trace = mixed(trace + Double.doubleToLongBits(values[set * each + k]));
    }
    return trace;
  }

  /**
   * A number that all fibres share that repeat each other, values and length, whatever the order of
   * their readings: the first thing to look at in a large job. 0 without readings.
   */
  static long trace(Ledger ledger, int slot) {
    long trace = 0;
    double length = Double.NaN;
    int lengthOrder = Integer.MAX_VALUE;
    for (AssessedReading reading : ledger.readings(slot)) {
      if (reading.current()) {
        int order = order(reading);
        trace += mixed(Double.doubleToLongBits(value(reading)) + mixed(order));
        if (order < lengthOrder && reading.reading().hasLength()) {
          length = reading.reading().lengthM();
          lengthOrder = order;
        }
      }
    }
    return trace == 0 ? 0 : mixed(trace + Double.doubleToLongBits(length));
  }

  /** Spreads bits: the finisher of SplitMix64 (Steele, Lea and Flood 2014). */
  static long mixed(long bits) {
    long z = (bits ^ (bits >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
