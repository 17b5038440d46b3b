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
import java.util.List;
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

  // -- over time

  private static String told(ZeroTrust trust) {
    StringBuilder told = new StringBuilder();
    for (TrustSpan span : trust.spans()) {
      told.append(Duration.between(MORNING, span.from()).toMinutes())
          .append(' ')
          .append(span.trust().word())
          .append(' ');
    }
    Instant end = trust.spans().get(trust.spans().size() - 1).to();
    return told.append(Duration.between(MORNING, end).toMinutes()).toString();
  }

  @Test
  void aGoodZeroIsFreshThenVerifiedThenAgeingUntilItLapses() {
    assertThat(told(trust(read(z1())))).isEqualTo("0 fresh 20 verified 240 ageing 720");
    assertThat(told(trust(unread(z1())))).isEqualTo("0 fresh 240 ageing 720");
  }

  @Test
  void whatIsWrongFromTheStartIsSaidFromTheStart() {
    ZeroTrust broken = trust(read(z1().verification(0.5)));
    assertThat(told(broken)).isEqualTo("0 broken 720");
    assertThat(broken.spans().get(0).reason()).isEqualTo(broken.reasons().get(0));
    assertThat(told(trust(read(z1().unverified())))).isEqualTo("0 doubtful 720");
  }

  @Test
  void aLaterZeroOfTheSameSourceEndsIt() {
    ZeroFixture later = ZeroFixture.zero("Z2").at(MORNING.plus(Duration.ofHours(2)));
    assertThat(told(trust(read(z1()).zero(later)))).isEqualTo("0 fresh 20 verified 120");
    assertThat(told(trust(read(z1()).zero(later.unverified()))))
        .isEqualTo("0 fresh 20 verified 120");
  }

  @Test
  void aLaterZeroOfTheSameCordsEndsItIfItsVerificationIsGood() {
    ZeroFixture later =
        ZeroFixture.zero("Z2").at(MORNING.plus(Duration.ofHours(2))).source("S9").meter("M9");
    assertThat(told(trust(read(z1()).zero(later)))).isEqualTo("0 fresh 20 verified 120");
    assertThat(told(trust(read(z1()).zero(later.unverified()))))
        .isEqualTo("0 fresh 20 verified 240 ageing 720");
    assertThat(told(trust(read(z1()).zero(later.verification(0.02).launch("L9")))))
        .isEqualTo("0 fresh 20 verified 240 ageing 720");
  }

  @Test
  void readingsAtTheWrongTimeStandOnADoubtfulZero() {
    Instant late = MORNING.plus(Duration.ofHours(13));
    assertThat(told(trust(read(z1()).change(of("K001/2"), time(late)))))
        .isEqualTo("0 fresh 20 verified 240 ageing 720 doubtful 780");
    Instant early = MORNING.minus(Duration.ofMinutes(30));
    assertThat(told(trust(read(z1()).change(of("K001/1"), time(early)))))
        .startsWith("-30 doubtful 0 verified 240 ageing");
  }

  @Test
  void aStepBreaksItOnlyFromItsMomentOn() {
    Instant planted = ShiftedJobs.setAt(2).plus(Duration.ofMinutes(20));
    Judgement judgement =
        Judge.judge(
            ShiftedJobs.lifted(ShiftedJobs.under("Z2").and(ShiftedJobs.from(planted)), 0.35).job());
    Doubt step =
        judgement.doubts().stream()
            .filter(d -> d.kind() == DoubtKind.LEVEL_STEP)
            .findFirst()
            .orElseThrow();
    String moment =
        step.evidence().stream()
            .filter(e -> e.name().equals("moment"))
            .map(Evidence::shown)
            .findFirst()
            .orElseThrow();
    ZeroTrust zero = judgement.zeros().get(1);
    assertThat(zero.trust()).isEqualTo(Trust.BROKEN);
    assertThat(zero.spans())
        .extracting(TrustSpan::trust)
        .containsExactly(Trust.FRESH, Trust.VERIFIED, Trust.BROKEN);
    TrustSpan broken = zero.spans().get(2);
    assertThat(broken.from()).isEqualTo(Instant.parse(moment));
    assertThat(Duration.between(planted, broken.from()).abs()).isLessThan(Duration.ofMinutes(3));
    assertThat(broken.reason()).isEqualTo(step.line());
  }

  @Test
  void aShiftBreaksItFromTheStart() {
    Judgement judgement = Judge.judge(ShiftedJobs.lifted(ShiftedJobs.under("Z2"), -0.35).job());
    assertThat(judgement.zeros().get(1).spans())
        .extracting(TrustSpan::trust)
        .containsExactly(Trust.BROKEN);
    assertThat(judgement.zeros().get(1).spans().get(0).from()).isEqualTo(ShiftedJobs.setAt(2));
    assertThat(judgement.zeros().get(1).spans().get(0).to()).isEqualTo(ShiftedJobs.setAt(3));
  }

  /** Over every case of every doubt: no gaps, every reading covered, and the word is the worst. */
  @Test
  void spansFollowEachOtherCoverEveryReadingAndAgreeWithTheWord() {
    int zeros = 0;
    for (DoubtCase one : DoubtCases.all()) {
      Judgement judgement = Judge.judge(one.job());
      for (ZeroTrust zero : judgement.zeros()) {
        zeros++;
        List<TrustSpan> spans = zero.spans();
        assertThat(spans).isNotEmpty();
        for (int i = 1; i < spans.size(); i++) {
          assertThat(spans.get(i).from()).isEqualTo(spans.get(i - 1).to());
          assertThat(spans.get(i)).isNotEqualTo(spans.get(i - 1));
        }
        Instant from = spans.get(0).from();
        Instant to = spans.get(spans.size() - 1).to();
        for (AssessedReading reading :
            judgement.ledger().byLevel().of(zero.zero(), level -> true)) {
          assertThat(reading.reading().measuredAt()).isBetween(from, to);
        }
        Trust worst = Trust.FRESH;
        for (TrustSpan span : spans) {
          worst = span.trust().compareTo(worst) > 0 ? span.trust() : worst;
        }
        // Readings of a case that the zero holds no power for age it at no time of its own.
        if (judgement.ledger().withoutLevel().isEmpty()) {
          assertThat(worst).as(one + " " + told(zero)).isGreaterThanOrEqualTo(zero.trust());
        }
        if (zero.trust() == Trust.BROKEN || zero.trust() == Trust.DOUBTFUL) {
          assertThat(worst).isEqualTo(zero.trust());
        }
      }
    }
    assertThat(zeros).isGreaterThan(20);
  }
}
