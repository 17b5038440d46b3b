package ferrule.app.desk.page;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The windows shown are those that core's doubts are drawn by. */
class ZeroWindowsTest {

  private static final Rulebook RULEBOOK = ShippedRulebooks.find("iso-11801-1").orElseThrow();
  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();

  @ParameterizedTest
  @EnumSource(Method.class)
  void aVerificationIsShownOutsideItsWindowExactlyWhenItIsDoubted(Method method) {
    int outside = 0;
    for (FibreCategory category : List.of(FibreCategory.OS2, FibreCategory.OM4)) {
      for (CordGrade launch : CordGrade.values()) {
        for (CordGrade receive : CordGrade.values()) {
          for (int hundredths = -60; hundredths <= 170; hundredths++) {
            Judgement judgement = judge(method, category, launch, receive, hundredths / 100.0);
            Zero zero = judgement.ledger().job().zeros().get(0);
            ZeroLevel level = zero.levels().get(0);
            boolean doubted =
                judgement.doubts().stream().anyMatch(d -> d.kind() == DoubtKind.ZERO_VERIFICATION);
            assertThat(
                    ZeroWindows.verification(judgement.ledger(), zero, level)
                        .holds(level.verification().orElseThrow()))
                .as("%s %s %s %s %d", method, category, launch, receive, hundredths)
                .isEqualTo(!doubted);
            outside += doubted ? 1 : 0;
          }
        }
      }
    }
    assertThat(outside).isPositive();
  }

  @ParameterizedTest
  @EnumSource(
      value = FibreCategory.class,
      names = {"OS2", "OM4"})
  void aPowerIsShownOutsideItsWindowExactlyWhenItIsDoubted(FibreCategory category) {
    for (int tenths = -300; tenths <= 0; tenths++) {
      Judgement judgement =
          Judge.judge(
              job(
                  Method.ONE_CORD,
                  category,
                  CordGrade.REFERENCE,
                  CordGrade.REFERENCE,
                  0.05,
                  tenths / 10.0));
      ZeroLevel level = judgement.ledger().job().zeros().get(0).levels().get(0);
      assertThat(ZeroWindows.power(judgement.ledger(), level).holds(level.power()))
          .as("%s %d", category, tenths)
          .isEqualTo(judgement.doubts().stream().noneMatch(d -> d.kind() == DoubtKind.ZERO_POWER));
    }
  }

  private static Judgement judge(
      Method method,
      FibreCategory category,
      CordGrade launch,
      CordGrade receive,
      double verification) {
    return Judge.judge(job(method, category, launch, receive, verification, -6));
  }

  private static Job job(
      Method method,
      FibreCategory category,
      CordGrade launch,
      CordGrade receive,
      double verification,
      double power) {
    Wavelength wavelength = new Wavelength(category == FibreCategory.OS2 ? 1310 : 850);
    ZeroLevel level =
        new ZeroLevel(
            Instant.EPOCH,
            Direction.A_TO_B,
            wavelength,
            new LevelDbm(power),
            Optional.of(new LossDb(verification)),
            "S",
            "M",
            "L",
            "R",
            "",
            Optional.empty(),
            "");
    return new Job(
        new Requirement(
            "Invented",
            "",
            "",
            RULEBOOK,
            new TreeSet<>(List.of(wavelength)),
            Requirement.Directions.ONE,
            method,
            DecisionRule.SIMPLE,
            List.of(),
            Requirement.FaceDemand.NONE,
            Settings.USUAL),
        List.of(),
        List.of(),
        List.of(cord("L", category, launch), cord("R", category, receive)),
        List.of(new Zero("Z", method, List.of(level))),
        List.of(),
        List.of());
  }

  private static Cord cord(String id, FibreCategory category, CordGrade grade) {
    Cord.CordEnd end = new Cord.CordEnd(Optional.of(LC), Optional.of(grade));
    return new Cord(
        id, category, Optional.empty(), end, end, OptionalInt.empty(), Optional.empty());
  }
}
