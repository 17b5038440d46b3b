package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.trial.CauseTrial.Call;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** That a cause called with 70 % is the right one about 70 times in a hundred. */
class CauseTrialTest {

  private static List<Call> calls = List.of();

  @BeforeAll
  static void run() {
    calls = CauseTrial.run(400, 20260302).stream().filter(c -> c.told().isPresent()).toList();
  }

  /** Right as often as said, within three per cent and chance (2.5 standard deviations). */
  @Test
  void theProbabilitiesHold() {
    for (double[] bin :
        new double[][] {{0.3, 0.5}, {0.5, 0.7}, {0.6, 0.8}, {0.7, 0.9}, {0.9, 1.000001}}) {
      List<Call> in = CauseTables.between(calls, bin[0], bin[1]);
      double said = 100 * in.stream().mapToDouble(Call::sure).average().orElseThrow();
      double chance = 2.5 * Math.sqrt(said * (100 - said) / in.size());
      assertThat(in).as("calls of %s", Arrays.toString(bin)).hasSizeGreaterThan(80);
      assertThat(CauseTables.right(in))
          .as("right of %d called %s", in.size(), Arrays.toString(bin))
          .isCloseTo(said, within(3 + chance));
    }
  }

  @Test
  void ofThoseCalledAboutSeventyPerCentSixtyToEightyAreRight() {
    assertThat(CauseTables.right(CauseTables.between(calls, 0.6, 0.8))).isBetween(60.0, 80.0);
  }

  @Test
  void thoseThatCannotBeToldLieBetweenTheCausesNamed() {
    List<Call> open = calls.stream().filter(c -> first(c).startsWith("cannot be told")).toList();
    assertThat(open).hasSizeGreaterThan(80);
    long within = open.stream().filter(c -> c.truth().isAmong(first(c))).count();
    assertThat(100.0 * within / open.size()).isBetween(83.0, 99.0);
  }

  @Test
  void mostCausesThatLeadAreRight() {
    List<Call> led = calls.stream().filter(c -> !first(c).startsWith("cannot be told")).toList();
    long right = led.stream().filter(c -> c.truth().isMeantBy(first(c))).count();
    assertThat(100.0 * right / led.size()).isGreaterThan(78);
  }

  /** Were each guess the commonest answer, far fewer would be right. */
  @Test
  void theReadingsTellMoreThanTheFrequencies() {
    for (Ailment ailment :
        List.of(Ailment.FILM, Ailment.CORD_DIRT, Ailment.GAP, Ailment.BEND, Ailment.CORES)) {
      List<Call> of = calls.stream().filter(c -> c.truth() == ailment).toList();
      assertThat(of).as(ailment.name()).isNotEmpty();
      assertThat(100.0 * of.stream().filter(Call::right).count() / of.size())
          .as("found of " + ailment)
          .isGreaterThan(45);
    }
  }

  private static String first(Call call) {
    return Optional.of(call).flatMap(Call::told).orElseThrow().get(0).cause();
  }
}
