package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Which instrument kept the time of a reading. */
final class Instruments {

  private Instruments() {}

  /** The meter of a level; the source if no meter is on record; empty without either. */
  static String of(ZeroLevel level) {
    return level.meter().isEmpty() ? level.source() : level.meter();
  }

  /** The same for a reading; empty without a level. */
  static String of(AssessedReading reading) {
    return reading.level().map(Instruments::of).orElse("");
  }

  /**
   * Every attempt by instrument, in the order handed in; without those of no instrument on record.
   */
  static Map<String, List<AssessedReading>> readings(Ledger ledger) {
    Map<String, List<AssessedReading>> byInstrument = new LinkedHashMap<>();
    for (AssessedReading reading : ledger.readings()) {
      String instrument = of(reading);
      if (!instrument.isEmpty()) {
        byInstrument.computeIfAbsent(instrument, k -> new ArrayList<>()).add(reading);
      }
    }
    return byInstrument;
  }
}
