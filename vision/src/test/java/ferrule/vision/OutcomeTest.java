package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class OutcomeTest {
  /** A small part of what {@link OutcomeMeasure} measures, with room for one miss. */
  @Test
  void theGradeOfARenderedFaceIsThatOfTheFlawsPlantedOnIt() {
    OutcomeMeasure.Result result = OutcomeMeasure.measure(36, 90_000, false);
    assertThat(result.faces()).isGreaterThan(25);
    assertThat(result.right()).isGreaterThanOrEqualTo(result.faces() - 1);
  }
}
