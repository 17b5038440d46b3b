package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import java.time.Instant;

/** Moments as numbers. */
final class Times {

  private Times() {}

  /** Seconds since 1970, UTC. */
  static double seconds(Instant at) {
    return seconds(at.getEpochSecond(), at.getNano());
  }

  /** The same from whole seconds and nanoseconds. */
  static double seconds(long second, int nano) {
    return second + nano * 1e-9;
  }

  /** When a reading was taken, in seconds since 1970, UTC. */
  static double seconds(AssessedReading reading) {
    return seconds(reading.reading().measuredAt());
  }
}
