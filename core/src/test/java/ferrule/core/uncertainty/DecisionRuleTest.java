package ferrule.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecisionRuleTest {

  @ParameterizedTest
  @CsvSource({
    "SIMPLE, 1.499999, ACCEPT",
    "SIMPLE, 1.5, ACCEPT",
    "SIMPLE, 1.500001, REJECT",
    "SIMPLE, -0.5, ACCEPT",
    "GUARDED, 1.399999, ACCEPT",
    "GUARDED, 1.4, ACCEPT",
    "GUARDED, 1.400001, UNDECIDED",
    "GUARDED, 1.5, UNDECIDED",
    "GUARDED, 1.6, UNDECIDED",
    "GUARDED, 1.600001, REJECT"
  })
  void theDecisionTurnsAtItsBound(DecisionRule rule, double loss, Decision decision) {
    assertThat(rule.decide(loss, 1.5, 0.1)).isEqualTo(decision);
  }

  @Test
  void aHairOfArithmeticDoesNotRejectWhatEqualsItsLimit() {
    assertThat(0.1 + 0.2).isGreaterThan(0.3);
    assertThat(DecisionRule.SIMPLE.decide(0.1 + 0.2, 0.3, 0.1)).isEqualTo(Decision.ACCEPT);
    assertThat(0.7 + 0.1).isLessThan(0.8);
    assertThat(DecisionRule.SIMPLE.decide(0.8, 0.7 + 0.1, 0.1)).isEqualTo(Decision.ACCEPT);
    assertThat(DecisionRule.GUARDED.decide(0.1 + 0.2, 0.4, 0.1)).isEqualTo(Decision.ACCEPT);
    assertThat(DecisionRule.GUARDED.decide(0.1 + 0.2, 0.2, 0.1)).isEqualTo(Decision.UNDECIDED);
  }

  @ParameterizedTest
  @EnumSource(DecisionRule.class)
  void nothingIsDecidedWithoutALossOrALimit(DecisionRule rule) {
    assertThat(rule.decide(Double.NaN, 1.5, 0.1)).isEqualTo(Decision.UNDECIDED);
    assertThat(rule.decide(0.3, Double.NaN, 0.1)).isEqualTo(Decision.UNDECIDED);
    assertThat(DecisionRule.ofWord(rule.word())).contains(rule);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.1, 1e200, Double.POSITIVE_INFINITY, Double.NaN})
  void underSimpleAcceptanceTheReadingAloneDecides(double expanded) {
    assertThat(DecisionRule.SIMPLE.decide(1.5, 1.5, expanded)).isEqualTo(Decision.ACCEPT);
    assertThat(DecisionRule.SIMPLE.decide(1.6, 1.5, expanded)).isEqualTo(Decision.REJECT);
  }

  @Test
  void withoutUncertaintyBothRulesAgree() {
    for (double loss = 0; loss < 3; loss += 0.01) {
      assertThat(DecisionRule.GUARDED.decide(loss, 1.5, 0))
          .isEqualTo(DecisionRule.SIMPLE.decide(loss, 1.5, 0));
    }
  }

  @Test
  void theAlarmLevelRisesWithTheLooks() {
    double one = Conformity.alarmLevel(1, 0.005, true);
    double many = Conformity.alarmLevel(800, 0.005, true);
    assertThat(many).isGreaterThan(one);
    assertThat(Conformity.alarmLevel(0, 0.005, true)).isEqualTo(one);
    assertThat(Conformity.alarmLevel(1, 0.05, true))
        .isCloseTo(1.959964, org.assertj.core.api.Assertions.within(1e-6));
    assertThat(Conformity.alarmLevel(1, 0.05, false))
        .isCloseTo(1.644854, org.assertj.core.api.Assertions.within(1e-6));
    // 800 looks, each at its own level: the chance that any rings is the one asked for.
    double each = 2 * Conformity.aboveLower(-many, 0, 1);
    assertThat(1 - Math.pow(1 - each, 800))
        .isCloseTo(0.005, org.assertj.core.api.Assertions.within(1e-9));
  }
}
