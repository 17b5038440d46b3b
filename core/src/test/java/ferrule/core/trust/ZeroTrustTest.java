package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.time;
import static ferrule.core.plant.Direction.A_TO_B;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class ZeroTrustTest {

  private static JobFixture unread(ZeroFixture zero) {
    return JobFixture.singleMode().link("K001", 2, 150).zero(zero);
  }

  private static JobFixture read(ZeroFixture zero) {
    return unread(zero).readAll("Z1", 1310, 1550);
  }

  private static ZeroFixture z1() {
    return ZeroFixture.zero("Z1");
  }

  private static ZeroTrust trust(JobFixture job) {
    return Judge.judge(job.job()).zeros().get(0);
  }

  @Test
  void verifiedAndNotYetUsedIsFresh() {
    ZeroTrust trust = trust(unread(z1()));
    assertThat(trust.trust()).isEqualTo(Trust.FRESH);
    assertThat(trust.readings()).isZero();
    assertThat(trust.reasons()).isNotEmpty();
  }

  @Test
  void verifiedAndUsedSoonAfterIsVerified() {
    ZeroTrust trust = trust(read(z1()));
    assertThat(trust.trust()).isEqualTo(Trust.VERIFIED);
    assertThat(trust.readings()).isEqualTo(8);
  }

  @Test
  void usedLongAfterItWasVerifiedIsAgeing() {
    Instant fourHours = MORNING.plus(Duration.ofHours(4));
    assertThat(trust(read(z1()).change(of("K001/2"), time(fourHours))).trust())
        .isEqualTo(Trust.VERIFIED);
    ZeroTrust ageing =
        trust(read(z1()).change(of("K001/2"), time(fourHours.plus(Duration.ofMinutes(30)))));
    assertThat(ageing.trust()).isEqualTo(Trust.AGEING);
    assertThat(ageing.reasons()).anyMatch(r -> r.contains("4.5 h") && r.contains("4 h at most"));
  }

  @Test
  void onlyReadingsThatCountMakeItAge() {
    JobFixture job =
        read(z1())
            .reading(
                reading("K001", 1, A_TO_B, 1310, 0.3, "Z1", MORNING.plus(Duration.ofHours(3))));
    assertThat(trust(job).trust()).isEqualTo(Trust.VERIFIED);
    assertThat(trust(job).readings()).isEqualTo(8);
  }

  @Test
  void unverifiedIsDoubtful() {
    ZeroTrust trust = trust(read(z1().unverified()));
    assertThat(trust.trust()).isEqualTo(Trust.DOUBTFUL);
    assertThat(trust.reasons()).anyMatch(r -> r.startsWith("The zero was not verified"));
    assertThat(trust(unread(z1().unverified())).trust()).isEqualTo(Trust.DOUBTFUL);
  }

  @Test
  void whatIsOddButDoesNotBlockIsDoubtful() {
    JobFixture job = read(z1()).cord("L1", FibreCategory.OS2, "LC-UPC", CordGrade.STANDARD);
    assertThat(trust(job).trust()).isEqualTo(Trust.DOUBTFUL);
    assertThat(Judge.judge(job.job()).allProved()).isTrue();
  }

  @Test
  void whatCannotStandIsBroken() {
    assertThat(trust(read(z1().power(-15))).trust()).isEqualTo(Trust.BROKEN);
    assertThat(trust(read(z1().verification(0.5))).trust()).isEqualTo(Trust.BROKEN);
    assertThat(trust(read(z1().method(Method.TWO_CORD))).trust()).isEqualTo(Trust.BROKEN);
    // Broken outweighs doubtful.
    assertThat(trust(read(z1().unverified().power(-15))).trust()).isEqualTo(Trust.BROKEN);
  }

  @Test
  void readingsOutsideItsValidityAgeAZeroButDoNotBreakIt() {
    ZeroTrust early = trust(read(z1()).change(of("K001/1"), time(MORNING.minusSeconds(1))));
    assertThat(early.trust()).isEqualTo(Trust.AGEING);
    assertThat(early.reasons()).anyMatch(r -> r.contains("before it was set"));
  }

  @Test
  void eachZeroIsJudgedForItself() {
    Judgement judgement =
        Judge.judge(
            read(z1())
                .zero(ZeroFixture.zero("Z2").unverified().source("S2").launch("L2").receive("R2"))
                .job());
    assertThat(judgement.zeros())
        .extracting(ZeroTrust::trust)
        .containsExactly(Trust.VERIFIED, Trust.DOUBTFUL);
    assertThat(judgement.zeros()).extracting(z -> z.zero().id()).containsExactly("Z1", "Z2");
  }
}
