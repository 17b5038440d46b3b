package ferrule.store.job;

import java.util.UUID;

/** The layout of a time-ordered unique id: UUID version 7, RFC 9562, 5.7. */
final class UuidV7 {

  private UuidV7() {}

  /**
   * The id of some parts.
   *
   * @param millis since 1970-01-01T00:00:00Z, 48 bits
   * @param a what RFC 9562 calls rand_a, 12 bits
   * @param b what it calls rand_b, 62 bits; the two bits above are not looked at
   */
  static UUID of(long millis, int a, long b) {
    long high = (millis << 16) | 0x7000 | (a & 0xFFF);
    long low = (b & 0x3FFF_FFFF_FFFF_FFFFL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low);
  }

  /** The time in an id, milliseconds since 1970-01-01T00:00:00Z. */
  static long millis(UUID id) {
    return id.getMostSignificantBits() >>> 16;
  }

  /** The 12 bits behind the time. */
  static int a(UUID id) {
    return (int) (id.getMostSignificantBits() & 0xFFF);
  }
}
