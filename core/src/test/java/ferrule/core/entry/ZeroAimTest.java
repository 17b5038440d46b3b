package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.job.Job;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.zero.Method;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The expected window of a zero's power; its bounds are common practice, no source. */
class ZeroAimTest {

  private static ZeroLevel level(double power, int day, String launch) {
    return new ZeroLevel(
        Instant.parse("2026-03-01T07:00:00Z").plusSeconds(day * 86_400L),
        Direction.A_TO_B,
        new Wavelength(1310),
        new LevelDbm(power),
        Optional.of(new LossDb(0.06)),
        "S1",
        "M1",
        launch,
        "R1",
        "",
        Optional.of(FibreCategory.OS2),
        "Ada");
  }

  private static JobFixture with(double... powers) {
    JobFixture fixture = JobFixture.singleMode();
    for (int i = 0; i < powers.length; i++) {
      fixture.zero(new Zero("Z" + i, Method.ONE_CORD, List.of(level(powers[i], i, "L1"))));
    }
    return fixture;
  }

  private static ZeroAim aim(Job job) {
    return ZeroAim.of(job, PowerWindow.SINGLE_MODE, level(0, 20, "L1"));
  }

  @Test
  void withoutHistoryTheWindowAloneIsExpected() {
    ZeroAim aim = aim(with().job());
    assertThat(aim.inWords()).startsWith("Expected -9.00 to -3.00 dBm (");
    assertThat(aim.question(-5)).isEmpty();
    assertThat(aim.question(-9.01).orElseThrow()).contains("outside -9.00 to -3.00 dBm", "clean");
    assertThat(aim.question(-2.99).orElseThrow()).contains("wavelength that the meter is set to");
  }

  @Test
  void withOneZeroBeforeTheSameLaunchCordIsExpectedToStoreAlike() {
    ZeroAim aim = aim(with(-5.1).job());
    assertThat(aim.question(-5.39)).isEmpty();
    assertThat(aim.question(-5.41).orElseThrow()).contains("0.31 dB below the zero before");
    assertThat(
            ZeroAim.of(with(-5.1).job(), PowerWindow.SINGLE_MODE, level(0, 9, "L2")).question(-5.6))
        .isEmpty();
  }

  @Test
  void withEnoughZerosBeforeTheirMedianIsExpected() {
    ZeroAim aim = aim(with(-5.1, -5.0, -5.2, -5.9).job());
    assertThat(aim.inWords()).contains("-5.15 dBm before, the median of 4 zeros");
    assertThat(aim.question(-5.64)).isEmpty();
    assertThat(aim.question(-5.66).orElseThrow()).contains("0.51 dB below what this source stored");
  }

  /** What is not asked about raises no doubt of its own later, and what is asked about does. */
  @ParameterizedTest
  @ValueSource(doubles = {-5.1, -5.55, -5.7, -4.5, -9.5, -2.5, -6.2})
  void whatIsAskedAboutIsWhatTheJudgeDoubts(double power) {
    double[] before = {-5.1, -5.0, -5.2};
    boolean asked = aim(with(before).job()).question(power).isPresent();
    Job job =
        with(before).zero(new Zero("new", Method.ONE_CORD, List.of(level(power, 20, "L1")))).job();
    boolean doubted =
        Judge.judge(job).doubts().stream()
            .anyMatch(d -> d.kind() == DoubtKind.ZERO_POWER && d.subject().id().equals("new"));
    assertThat(doubted).isEqualTo(asked);
  }
}
