package ferrule.core.trust.many;

import static ferrule.core.fixture.JobFixture.MORNING;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Ledger;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class CordWornTest {

  private static List<Doubt> doubts(JobFixture job) {
    List<Doubt> doubts = new ArrayList<>();
    Ledger ledger = Ledger.of(job.job());
    new CordWornFinder(new Timeline(ledger)).find(ledger, doubts::add);
    return doubts;
  }

  private static Cord cord(String id, int matings) {
    Cord.CordEnd end =
        new Cord.CordEnd(Connector.parse("LC-UPC"), Optional.of(CordGrade.REFERENCE));
    return new Cord(
        id,
        FibreCategory.OS2,
        Optional.of(2.0),
        end,
        end,
        matings < 0 ? OptionalInt.empty() : OptionalInt.of(matings),
        Optional.empty());
  }

  private static JobFixture links(int links, int matings) {
    JobFixture job = JobFixture.singleMode().cord(cord("L1", matings)).cord(cord("R1", -1));
    for (int i = 1; i <= links; i++) {
      job.link(Planting.link(i), 1, 150);
    }
    return job.zero(ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
  }

  @Test
  void fourHundredMatingsAndAHundredLinksAreNoDoubt() {
    assertThat(doubts(links(100, 400))).isEmpty();
  }

  @Test
  void fiveHundredMatingsOnRecordAreADoubtAboutEveryReading() {
    assertThat(doubts(links(4, 499))).isEmpty();
    assertThat(doubts(links(4, 500)))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.subject().id()).isEqualTo("L1");
              assertThat(d.blocking()).isFalse();
              assertThat(d.reach().readings()).hasSize(16);
            });
  }

  @Test
  void recordAndJobTogetherReachTheReadingsAfterTheFiveHundredthMating() {
    assertThat(doubts(links(100, 449))).isEmpty();
    assertThat(doubts(links(100, 450)))
        .singleElement()
        .satisfies(d -> assertThat(d.reach().readings()).hasSize(300));
  }

  private static JobFixture verified(double... verifications) {
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < verifications.length; i++) {
      String link = Planting.link(i + 1);
      job.link(link, 1, 150)
          .zero(
              ZeroFixture.zero("Z" + (i + 1))
                  .at(MORNING.plus(Duration.ofHours(6L * i)))
                  .verification(verifications[i]));
      job.readAll(
          "Z" + (i + 1),
          MORNING.plus(Duration.ofHours(6L * i + 1)),
          l -> l.id().equals(link),
          1310,
          1550);
    }
    return job;
  }

  @Test
  void aRiseThatStaysIsADoubtFromTheZeroThatShowsIt() {
    List<Doubt> doubts = doubts(verified(0.05, 0.06, 0.05, 0.16, 0.17));
    assertThat(doubts).extracting(d -> d.subject().id()).containsExactly("L1", "R1");
    assertThat(doubts)
        .allSatisfy(
            d -> {
              assertThat(d.blocking()).isFalse();
              assertThat(d.reach().fibres())
                  .extracting(Object::toString)
                  .containsExactly("K004/1", "K005/1");
            });
  }

  @Test
  void aSteadyRiseIsFoundToo() {
    assertThat(doubts(verified(0.04, 0.07, 0.09, 0.12, 0.15, 0.17, 0.20))).hasSize(2);
  }

  @Test
  void aRiseThatCleaningTookBackIsNone() {
    assertThat(doubts(verified(0.05, 0.06, 0.17, 0.18, 0.06))).isEmpty();
  }

  @Test
  void oneHighVerificationIsNone() {
    assertThat(doubts(verified(0.05, 0.06, 0.05, 0.17))).isEmpty();
  }

  @Test
  void verificationsThatScatterAnywayAreNone() {
    assertThat(doubts(verified(0.03, 0.17, 0.02, 0.15, 0.04, 0.18, 0.14, 0.16))).isEmpty();
  }

  @Test
  void twoRunningAboveTheBoundAreADoubt() {
    assertThat(doubts(verified(0.18, 0.19, 0.22, 0.23))).hasSize(2);
    assertThat(doubts(verified(0.18, 0.19, 0.22, 0.20))).isEmpty();
  }

  @Test
  void manyZerosOfOneReadingAreNoTrouble() {
    double[] values = new double[300];
    java.util.Arrays.fill(values, 0.06);
    assertThat(doubts(verified(values))).isEmpty();
  }
}
