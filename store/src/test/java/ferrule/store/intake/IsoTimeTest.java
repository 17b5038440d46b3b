package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Against java.time, which reads every ISO 8601 time and is taken for right. */
class IsoTimeTest {

  private static final String ALPHABET = "0123456789-+:TZz. ";

  private static @Nullable Instant quick(String text) {
    char[] around = ("5" + text + "7").toCharArray();
    return IsoTime.parse(around, 1, 1 + text.length());
  }

  private static @Nullable Instant byJava(String text) {
    try {
      Instant time = OffsetDateTime.parse(text).toInstant();
      return IsoTime.isPlausible(time) ? time : null;
    } catch (DateTimeException e) {
      return null;
    }
  }

  private static String two(int number) {
    return (number < 10 ? "0" : "") + number;
  }

  @Test
  void timesOfTheCommonFormAreReadAsJavaReadsThem() {
    SplittableRandom random = new SplittableRandom(20261005);
    int read = 0;
    for (int i = 0; i < 60_000; i++) {
      String text =
          random.nextInt(1975, 2206)
              + "-"
              + two(random.nextInt(0, 14))
              + "-"
              + two(random.nextInt(0, 33))
              + "T"
              + two(random.nextInt(0, 26))
              + ":"
              + two(random.nextInt(0, 62))
              + (random.nextBoolean() ? ":" + two(random.nextInt(0, 62)) : "")
              + (random.nextInt(4) == 0
                  ? "Z"
                  : (random.nextBoolean() ? "+" : "-")
                      + two(random.nextInt(0, 18))
                      + ":"
                      + two(random.nextInt(0, 61)));
      Instant quick = quick(text);
      assertThat(quick).as(text).isEqualTo(byJava(text));
      read += quick == null ? 0 : 1;
    }
    assertThat(read).isGreaterThan(30_000);
  }

  @Test
  void everyMonthEndOfTwoHundredYearsIsReadAsJavaReadsIt() {
    for (int year = 1980; year <= 2200; year++) {
      for (int month = 1; month <= 12; month++) {
        for (int day = 28; day <= 31; day++) {
          String text = year + "-" + two(month) + "-" + two(day) + "T12:00:00+05:30";
          assertThat(quick(text)).as(text).isEqualTo(byJava(text));
        }
      }
    }
  }

  @Test
  void spoiltTimesAreNeverReadAsSomethingThatJavaDoesNotRead() {
    SplittableRandom random = new SplittableRandom(40);
    for (int i = 0; i < 60_000; i++) {
      StringBuilder text = new StringBuilder("2026-10-05T14:30:00+02:00");
      if (random.nextBoolean()) {
        text = new StringBuilder("2026-10-05T14:30Z");
      }
      for (int spoils = random.nextInt(1, 4); spoils > 0; spoils--) {
        int at = random.nextInt(text.length());
        char c = ALPHABET.charAt(random.nextInt(ALPHABET.length()));
        switch (random.nextInt(3)) {
          case 0 -> text.setCharAt(at, c);
          case 1 -> text.deleteCharAt(at);
          default -> text.insert(at, c);
        }
      }
      Instant quick = quick(text.toString());
      if (quick != null) {
        assertThat(quick).as(text.toString()).isEqualTo(byJava(text.toString()));
      }
    }
  }
}
