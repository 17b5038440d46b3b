package ferrule.store.job;

import java.time.InstantSource;
import java.util.UUID;
import java.util.random.RandomGenerator;

/** Time-ordered unique ids: UUID version 7 (RFC 9562, 5.7), counted on within one millisecond. */
final class EntryIds {

  private final InstantSource clock;
  private final RandomGenerator random;
  private long lastMillis = -1;
  private int counter;

  EntryIds(InstantSource clock, RandomGenerator random) {
    this.clock = clock;
    this.random = random;
  }

  String next() {
    long millis = Math.max(lastMillis, clock.millis());
    if (millis != lastMillis) {
      lastMillis = millis;
      counter = random.nextInt(0x400);
    } else if (++counter > 0xFFF) {
      lastMillis++;
      millis = lastMillis;
      counter = 0;
    }
    long high = (millis << 16) | 0x7000 | counter;
    long low = (random.nextLong() & 0x3FFF_FFFF_FFFF_FFFFL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low).toString();
  }
}
