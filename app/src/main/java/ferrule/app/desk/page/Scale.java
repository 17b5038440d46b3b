package ferrule.app.desk.page;

import ferrule.core.trust.AssessedReading;
import java.util.Collection;

/** The scale that several loss strips share. */
final class Scale {

  private Scale() {}

  /** From 0 dB to a little beyond the highest limit or reading, in half decibels; at least 1 dB. */
  static double of(Collection<AssessedReading> readings) {
    double most = 0.8;
    for (AssessedReading reading : readings) {
      if (!Double.isNaN(reading.limitDb())) {
        most = Math.max(most, reading.limitDb());
      }
      if (reading.hasLoss()) {
        most = Math.max(most, Math.min(reading.lossDb(), 60));
      }
    }
    return Math.ceil(most * 1.15 * 2) / 2;
  }
}
