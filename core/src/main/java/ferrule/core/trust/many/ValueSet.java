package ferrule.core.trust.many;

import ferrule.core.allowance.Allowance;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What was handed in for one fibre: its values that count, direction by direction and wavelength by
 * wavelength, and its length.
 *
 * @param slot the fibre
 * @param link its link
 * @param readings those that count, A-B first, shorter wavelengths first
 * @param values loss, or power where no loss was handed in; as handed in
 * @param residuals loss less expected loss, dB, in the same order
 * @param lengthM measured length, metres; NaN if none was handed in
 * @param at the moment of the first reading, seconds
 * @param index its first place in the order handed in
 */
record ValueSet(
    int slot,
    Link link,
    AssessedReading[] readings,
    double[] values,
    double[] residuals,
    double lengthM,
    double at,
    int index) {

  /** Further from the expected loss than this, dB, an instrument's floor may speak. */
  private static final double WILD_DB = 5;

  /** The set of a fibre; null without readings, or if one is too wild to be a link's loss. */
  static @Nullable ValueSet of(Ledger ledger, int slot) {
    AssessedReading[] readings = current(ledger, slot);
    if (readings.length == 0) {
      return null;
    }
    double[] values = new double[readings.length];
    double[] residuals = new double[readings.length];
    double length = Double.NaN;
    double at = Double.POSITIVE_INFINITY;
    int index = Integer.MAX_VALUE;
    for (int i = 0; i < readings.length; i++) {
      AssessedReading reading = readings[i];
      values[i] = value(reading);
      residuals[i] = residual(reading);
      if (!(Math.abs(residuals[i]) < WILD_DB)) {
        return null;
      }
      if (Double.isNaN(length)) {
        length = reading.reading().lengthM();
      }
      at = Math.min(at, Times.seconds(reading));
      index = Math.min(index, reading.index());
    }
    return new ValueSet(slot, ledger.link(slot), readings, values, residuals, length, at, index);
  }

  /** The readings that count, sorted by case; there are few. */
  private static AssessedReading[] current(Ledger ledger, int slot) {
    AssessedReading[] found = new AssessedReading[4];
    int size = 0;
    for (AssessedReading reading : ledger.readings(slot)) {
      if (reading.current()) {
        if (size == found.length) {
          found = Arrays.copyOf(found, 2 * size);
        }
        int at = size++;
        while (at > 0 && order(found[at - 1]) > order(reading)) {
          found[at] = found[at - 1];
          at--;
        }
        found[at] = reading;
      }
    }
    return size == found.length ? found : Arrays.copyOf(found, size);
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

  /**
   * A number that all fibres share that repeat each other, whatever the order of their readings:
   * the first thing to look at in a large job. 0 without readings.
   */
  static long trace(Ledger ledger, int slot) {
    long trace = 0;
    for (AssessedReading reading : ledger.readings(slot)) {
      if (reading.current()) {
        trace += mixed(Double.doubleToLongBits(value(reading)) + mixed(order(reading)));
      }
    }
    return trace;
  }

  /** Spreads bits: the finisher of SplitMix64 (Steele, Lea and Flood 2014). */
  private static long mixed(long bits) {
    long z = (bits ^ (bits >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }

  boolean hasLength() {
    return !Double.isNaN(lengthM);
  }

  /** Whether both were read in the same cases: others are never compared. */
  boolean sameCasesAs(ValueSet other) {
    if (readings.length != other.readings.length
        || link.category().kind() != other.link.category().kind()) {
      return false;
    }
    for (int i = 0; i < readings.length; i++) {
      if (!readings[i].sameCaseAs(other.readings[i])
          || readings[i].reading().hasLoss() != other.readings[i].reading().hasLoss()) {
        return false;
      }
    }
    return true;
  }

  boolean sameValuesAs(ValueSet other) {
    return Arrays.equals(values, other.values);
  }

  /** Whether values are the same and lengths are too, or neither has one. */
  boolean repeats(ValueSet other) {
    return sameValuesAs(other) && Double.compare(lengthM, other.lengthM) == 0;
  }
}
