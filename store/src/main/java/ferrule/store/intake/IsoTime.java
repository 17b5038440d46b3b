package ferrule.store.intake;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Reads the common form of an ISO 8601 time with offset, {@code 2026-10-05T14:30:00+02:00} or with
 * {@code Z}, with or without seconds, several times as fast as the general parser. Whatever else is
 * left to the general parser.
 */
final class IsoTime {

  private static final int[] DAYS_BEFORE_MONTH = {
    0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334
  };
  private static final int[] DAYS_IN_MONTH = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

  private static final long FIRST_SECOND = Instant.parse("1980-01-01T00:00:00Z").getEpochSecond();
  private static final long LAST_SECOND = Instant.parse("2200-12-31T23:59:59Z").getEpochSecond();

  /** Length of the longest text of the common form. */
  static final int LONGEST = "2026-10-05T14:30:00+02:00".length();

  private IsoTime() {}

  /** Whether a time lies from 1980 to 2200 (UTC): no job is older, and none will be younger. */
  static boolean isPlausible(Instant time) {
    return time.getEpochSecond() >= FIRST_SECOND && time.getEpochSecond() <= LAST_SECOND;
  }

  /**
   * The time, or null if the text is not of the common form or not a time from 1980 to 2200 (UTC).
   */
  static @Nullable Instant parse(char[] text, int start, int end) {
    int length = end - start;
    if (length < 17
        || text[start + 4] != '-'
        || text[start + 7] != '-'
        || text[start + 10] != 'T'
        || text[start + 13] != ':') {
      return null;
    }
    int year = two(text, start + 0) * 100 + two(text, start + 2);
    int month = two(text, start + 5);
    int day = two(text, start + 8);
    int hour = two(text, start + 11);
    int minute = two(text, start + 14);
    int second = 0;
    int at = 16;
    if (text[start + 16] == ':') {
      if (length < 20) {
        return null;
      }
      second = two(text, start + 17);
      at = 19;
    }
    int offset;
    if (at == length - 1 && text[start + at] == 'Z') {
      offset = 0;
    } else if (at == length - 6
        && (text[start + at] == '+' || text[start + at] == '-')
        && text[start + at + 3] == ':') {
      int hours = two(text, start + at + 1);
      int minutes = two(text, start + at + 4);
      if (hours < 0 || hours > 17 || minutes < 0 || minutes > 59) {
        return null;
      }
      offset = (hours * 60 + minutes) * 60 * (text[start + at] == '-' ? -1 : 1);
    } else {
      return null;
    }
    if (year < 1979
        || year > 2201
        || month < 1
        || month > 12
        || day < 1
        || hour < 0
        || hour > 23
        || minute < 0
        || minute > 59
        || second < 0
        || second > 59) {
      return null;
    }
    boolean leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    if (day > DAYS_IN_MONTH[month - 1] + (leap && month == 2 ? 1 : 0)) {
      return null;
    }
    int before = year - 1;
    long days =
        365L * year
            + before / 4
            - before / 100
            + before / 400
            + DAYS_BEFORE_MONTH[month - 1]
            + (leap && month > 2 ? 1 : 0)
            + day
            - 1
            - 719_527; // days from year 0 to 1970-01-01 counted the same way
    Instant time = Instant.ofEpochSecond(((days * 24 + hour) * 60 + minute) * 60 + second - offset);
    return isPlausible(time) ? time : null;
  }

  private static int two(char[] text, int at) {
    int tens = text[at] - '0';
    int ones = text[at + 1] - '0';
    return tens < 0 || tens > 9 || ones < 0 || ones > 9
        ? Integer.MIN_VALUE / 200
        : tens * 10 + ones;
  }
}
