package ferrule.store.job;

import java.time.InstantSource;
import java.util.UUID;
import java.util.random.RandomGenerator;

/** Time-ordered unique ids: UUID version 7 (RFC 9562, 5.7), counted on within one millisecond. */
final class EntryIds {

  /** A count begins below this, so that there is room to count on. */
  private static final int FIRST_COUNTS = 0x400;

  private final InstantSource clock;
  private final RandomGenerator random;
  private long lastMillis = -1;
  private int counter;

  EntryIds(InstantSource clock, RandomGenerator random) {
    this.clock = clock;
    this.random = random;
  }

  /** Makes every further id sort behind this one, even if the clock has been set back since. */
  void continueAfter(String id) {
    try {
      UUID last = UUID.fromString(id);
      lastMillis = UuidV7.millis(last);
      counter = UuidV7.a(last);
    } catch (IllegalArgumentException e) {
      throw new DamagedEntryException("an id that is no UUID: " + id);
    }
  }

  String next() {
    long millis = Math.max(lastMillis, clock.millis());
    if (millis != lastMillis) {
      lastMillis = millis;
      counter = random.nextInt(FIRST_COUNTS);
    } else if (++counter > 0xFFF) {
      lastMillis++;
      millis = lastMillis;
      counter = 0;
    }
    return UuidV7.of(millis, counter, random.nextLong()).toString();
  }
}
