package ferrule.core.trust.many;

import ferrule.core.allowance.Allowance;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What was handed in for one fibre: its values that count, direction by direction and wavelength by
 * wavelength, and its length.
 *
 * @param slot the fibre
 * @param readings those that count, A-B first, shorter wavelengths first
 * @param values loss, or power where no loss was handed in; as handed in
 * @param residuals loss less expected loss, dB, in the same order
 * @param lengthM measured length, metres; NaN if none was handed in
 * @param at the moment of the first reading, seconds
 */
record ValueSet(
    int slot,
    Link link,
    List<AssessedReading> readings,
    double[] values,
    double[] residuals,
    double lengthM,
    double at) {

  /** Further from the expected loss than this, dB, an instrument's floor may speak. */
  private static final double WILD_DB = 5;

  private static final Comparator<AssessedReading> BY_CASE =
      Comparator.comparing((AssessedReading r) -> !r.forward())
          .thenComparingInt(AssessedReading::nm);

  /** The set of a fibre; null without readings, or if one is too wild to be a link's loss. */
  static @Nullable ValueSet of(Ledger ledger, int slot) {
    List<AssessedReading> readings = new ArrayList<>(4);
    for (AssessedReading reading : ledger.readings(slot)) {
      if (reading.current()) {
        readings.add(reading);
      }
    }
    if (readings.isEmpty()) {
      return null;
    }
    readings.sort(BY_CASE);
    double[] values = new double[readings.size()];
    double[] residuals = new double[values.length];
    double length = Double.NaN;
    double at = Double.POSITIVE_INFINITY;
    for (int i = 0; i < values.length; i++) {
      AssessedReading reading = readings.get(i);
      values[i] =
          reading.reading().hasLoss() ? reading.reading().lossDb() : reading.reading().powerDbm();
      residuals[i] = residual(reading);
      if (!(Math.abs(residuals[i]) < WILD_DB)) {
        return null;
      }
      if (Double.isNaN(length)) {
        length = reading.reading().lengthM();
      }
      at = Math.min(at, Times.seconds(reading));
    }
    return new ValueSet(slot, ledger.link(slot), readings, values, residuals, length, at);
  }

  private static double residual(AssessedReading reading) {
    double expected = reading.allowance().map(Allowance::expectedDb).orElse(Double.NaN);
    return Double.isNaN(expected) ? reading.lossDb() : reading.lossDb() - expected;
  }

  boolean hasLength() {
    return !Double.isNaN(lengthM);
  }

  /** Place in the order handed in. */
  int index() {
    int index = Integer.MAX_VALUE;
    for (AssessedReading reading : readings) {
      index = Math.min(index, reading.index());
    }
    return index;
  }

  /** Which cases it holds: sets of different cases are never compared. */
  String cases() {
    StringBuilder cases = new StringBuilder();
    for (AssessedReading reading : readings) {
      cases
          .append(reading.forward() ? '>' : '<')
          .append(reading.reading().hasLoss() ? 'L' : 'P')
          .append(reading.nm());
    }
    return cases.append(link.category().kind()).toString();
  }

  boolean sameValuesAs(ValueSet other) {
    return Arrays.equals(values, other.values);
  }

  /** Whether values are the same and lengths are too, or neither has one. */
  boolean repeats(ValueSet other) {
    return sameValuesAs(other) && Double.compare(lengthM, other.lengthM) == 0;
  }
}
