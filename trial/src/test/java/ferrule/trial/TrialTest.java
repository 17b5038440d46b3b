package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Sight;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What the judge must find at least; the bounds are data ({@code bounds.csv}). */
class TrialTest {

  private static final long SEED = 20260302;

  /** End faces are no reading and no paper of this simulator. */
  private static final Set<DoubtKind> NOT_SIMULATED =
      Set.of(DoubtKind.FACE_UNSEEN, DoubtKind.FACE_REJECTED);

  static List<String[]> bounds() {
    return Table.rows("bounds.csv").stream().filter(r -> !r[0].equals(Trial.CLEAN)).toList();
  }

  @Test
  void everyKindOfDoubtHasItsTroubleAndItsBound() {
    Set<String> kinds =
        Arrays.stream(DoubtKind.values())
            .filter(k -> !NOT_SIMULATED.contains(k))
            .map(DoubtKind::id)
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(Troubles.kinds()).containsExactlyInAnyOrderElementsOf(kinds);
    assertThat(bounds().stream().map(r -> r[0])).containsExactlyInAnyOrderElementsOf(kinds);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("bounds")
  void plantedTroubleIsNamedWithItsReach(String kind, int jobs, int leastNamed, int leastReach) {
    List<Outcome> told =
        Trial.run(kind, jobs, SEED, OptionalDouble.empty()).stream()
            .filter(o -> !o.planted().orElseThrow().confounded())
            .toList();
    assertThat(told).isNotEmpty();
    assertThat(percent(told.stream().filter(Outcome::named).count(), told.size()))
        .as("named, per cent of " + told.size() + "; missed " + missed(told))
        .isGreaterThanOrEqualTo(leastNamed);
    assertThat(percent(told.stream().filter(Outcome::reachEqual).count(), told.size()))
        .as("reach equal, per cent")
        .isGreaterThanOrEqualTo(leastReach);
  }

  /**
   * A step that a drift or a panel explains as well may be told as that, so it is held to less than
   * the rest.
   */
  @Test
  void whatTheJobsOwnTestPromisesIsNamed() {
    for (String kind : List.of("zero-shift", "direction-bias", "level-drift", "level-step")) {
      List<Outcome> promised =
          Trial.run(kind, 60, SEED, OptionalDouble.empty()).stream()
              .filter(o -> o.promised() >= Sight.SURE)
              .toList();
      assertThat(promised).hasSizeGreaterThan(20);
      assertThat(percent(promised.stream().filter(Outcome::named).count(), promised.size()))
          .as(kind + ", missed " + missed(promised))
          .isGreaterThanOrEqualTo(kind.equals("level-step") ? 85 : 92);
    }
  }

  @Test
  void cleanJobsRingNoBlockingDoubt() {
    String[] bound =
        Table.rows("bounds.csv").stream()
            .filter(r -> r[0].equals(Trial.CLEAN))
            .findFirst()
            .orElseThrow();
    List<Outcome> outcomes =
        Trial.run(Trial.CLEAN, Integer.parseInt(bound[1]), SEED, OptionalDouble.empty());
    List<String> blocked =
        outcomes.stream().filter(Outcome::blocking).map(o -> o.seed() + ": " + o.said()).toList();
    assertThat(blocked).hasSizeLessThanOrEqualTo(Integer.parseInt(bound[2]));
    List<String> rang =
        outcomes.stream()
            .filter(o -> !o.doubts().isEmpty())
            .map(o -> o.seed() + ": " + o.said())
            .toList();
    assertThat(rang).hasSizeLessThanOrEqualTo(Integer.parseInt(bound[3]));
  }

  @Test
  void sameSeedGivesTheSameOutcomesInTheSameOrder() {
    List<Outcome> one = Trial.run("below-floor", 12, 3, OptionalDouble.empty());
    List<Outcome> other = Trial.run("below-floor", 12, 3, OptionalDouble.empty());
    assertThat(one.stream().map(o -> o.seed() + o.said()))
        .containsExactlyElementsOf(other.stream().map(o -> o.seed() + o.said()).toList());
    Outcome first = one.get(0);
    assertThat(Trial.one("below-floor", first.seed(), OptionalDouble.empty()).orElseThrow().said())
        .isEqualTo(first.said());
  }

  private static double percent(long count, int of) {
    return 100.0 * count / of;
  }

  private static List<String> missed(List<Outcome> outcomes) {
    return outcomes.stream()
        .filter(o -> !o.named())
        .limit(3)
        .map(o -> o.seed() + ": " + o.said())
        .toList();
  }
}
