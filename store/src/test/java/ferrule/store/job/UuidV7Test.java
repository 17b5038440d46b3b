package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/** Time-ordered unique ids, against RFC 9562. */
class UuidV7Test {

  /** RFC 9562, appendix A.6: the example of a UUID version 7. */
  private static final String EXAMPLE = "017F22E2-79B0-7CC3-98C4-DC0C0C07398F";

  /** Its time in words, 2022-02-22 14:22:22 GMT-05:00, and its random parts. */
  private static final Instant EXAMPLE_TIME = Instant.parse("2022-02-22T14:22:22-05:00");

  private static final int EXAMPLE_A = 0xCC3;
  private static final long EXAMPLE_B = 0x18C4_DC0C_0C07_398FL;

  @Test
  void theExampleOfTheStandardIsMadeOfItsParts() {
    UUID made = UuidV7.of(EXAMPLE_TIME.toEpochMilli(), EXAMPLE_A, EXAMPLE_B);
    assertThat(made).isEqualTo(UUID.fromString(EXAMPLE));
    assertThat(made.version()).isEqualTo(7);
    assertThat(made.variant()).isEqualTo(2);
  }

  @Test
  void theExampleOfTheStandardIsTakenApart() {
    UUID example = UUID.fromString(EXAMPLE);
    assertThat(UuidV7.millis(example)).isEqualTo(0x017F22E279B0L);
    assertThat(UuidV7.a(example)).isEqualTo(EXAMPLE_A);
  }

  @Test
  void idsOfTheSameTimeAndSeedAreTheSameAndFollowTheExample() {
    List<List<String>> runs = new ArrayList<>();
    for (int run = 0; run < 2; run++) {
      EntryIds ids = new EntryIds(() -> EXAMPLE_TIME, new Random(9562));
      ids.continueAfter(EXAMPLE.toLowerCase(java.util.Locale.ROOT));
      List<String> made = new ArrayList<>();
      for (int i = 0; i < 5_000; i++) {
        made.add(ids.next());
      }
      runs.add(made);
    }
    assertThat(runs.get(0)).isEqualTo(runs.get(1)).isSorted().doesNotHaveDuplicates();
    assertThat(runs.get(0).get(0)).startsWith("017f22e2-79b0-7cc4-");
    // The 12 bits are used up after 4096 - 0xCC4 ids; the time counts on.
    assertThat(runs.get(0).get(0x1000 - 0xCC4)).startsWith("017f22e2-79b1-7000-");
  }
}
