package ferrule.app.demo;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The invented job is taken in clean, and every planted trouble is found where it was planted. */
class DemoSiteTest {

  private static final long SEED = 2026;

  @TempDir private static Path folder = Path.of("");

  private static Judgement judge() {
    JobFolder.Assembled assembled = JobFolder.read(folder, Purpose.JUDGE).assemble();
    assertThat(assembled.problems()).isEmpty();
    return Judge.judge(assembled.job().orElseThrow());
  }

  @BeforeAll
  static void writeTheDemo() throws IOException {
    DemoSite.write(folder, SEED);
  }

  private static Set<String> subjects(DoubtKind kind) {
    Set<String> subjects = new TreeSet<>();
    for (Doubt doubt : judge().doubts()) {
      if (doubt.kind() == kind) {
        subjects.add(doubt.subject().id());
      }
    }
    return subjects;
  }

  @Test
  void theSameSeedGivesTheSameBytesAndAnotherSeedOthers() {
    assertThat(DemoSite.files(SEED)).isEqualTo(DemoSite.files(SEED));
    assertThat(DemoSite.files(SEED + 1)).isNotEqualTo(DemoSite.files(SEED));
  }

  @Test
  void everyPlantedZeroTroubleIsFoundAtItsZero() {
    assertThat(subjects(DoubtKind.ZERO_UNVERIFIED)).containsExactly("Z06");
    assertThat(subjects(DoubtKind.ZERO_VERIFICATION)).containsExactly("Z04");
    assertThat(subjects(DoubtKind.ZERO_MISMATCH)).containsExactly("Z14");
    assertThat(subjects(DoubtKind.ZERO_POWER)).containsExactly("Z10");
    assertThat(subjects(DoubtKind.ZERO_LAPSED)).containsExactly("Z05");
    assertThat(subjects(DoubtKind.CALIBRATION_LAPSED)).containsExactly("TC2");
  }

  @Test
  void everyPlantedFibreTroubleIsFoundAtItsFibre() {
    assertThat(subjects(DoubtKind.WAVELENGTH_ORDER))
        .containsExactly("S004/1", "S019/2", "S033/1");
    assertThat(subjects(DoubtKind.DIRECTION_GAP)).containsExactly("M010/2");
    assertThat(subjects(DoubtKind.LENGTH_GAP))
        .containsExactly("M044/1", "M044/2", "M047/1", "M047/2", "S028/3");
    assertThat(subjects(DoubtKind.BELOW_FLOOR)).containsExactly("S028/3");
    assertThat(subjects(DoubtKind.MISSING))
        .containsExactly("M052/1", "M058/1", "M058/2", "S021/1", "S021/2");
    assertThat(subjects(DoubtKind.UNSCHEDULED)).containsExactly("MO58/1", "MO58/2");
    assertThat(subjects(DoubtKind.DOUBLE)).containsExactly("M015/2", "M020/1");
    assertThat(subjects(DoubtKind.PAPER_CONFLICT)).isEmpty();
  }

  @Test
  void onlyDirtAndTheTightBendFail() {
    Set<String> failed = new TreeSet<>();
    judge().fibres().stream()
        .filter(f -> f.standing() == Standing.FAILED)
        .forEach(f -> failed.add(f.fibre().toString()));
    assertThat(failed).containsExactly("M030/1", "S007/2", "S033/1");
  }

  @Test
  void theZeroThatWentOnReachesOnlyTheNextMorning() {
    Doubt lapsed =
        judge().doubts().stream()
            .filter(d -> d.kind() == DoubtKind.ZERO_LAPSED)
            .findFirst()
            .orElseThrow();
    List<String> wentOn = DemoMaker.make(SEED).planted().getOrDefault("went-on", List.of());
    assertThat(lapsed.reach().fibres().stream().map(FibreId::link).distinct())
        .containsExactlyElementsOf(wentOn);
  }

  @Test
  void mostFibresAreProved() {
    Judgement judgement = judge();
    int proved = judgement.totals().getOrDefault(Standing.PROVED, 0);
    assertThat(proved).isBetween(judgement.fibres().size() * 7 / 10, judgement.fibres().size() * 9 / 10);
  }
}
