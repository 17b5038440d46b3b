package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static ferrule.core.plant.Direction.B_TO_A;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

class ActionsTest {

  private static final Instant LATER = MORNING.plus(Duration.ofHours(2));

  private static List<Action> actions(JobFixture job) {
    return Judge.judge(job.job()).actions();
  }

  @Test
  void aReZeroThatFreesFortyFibresComesBeforeACleaningThatFreesOne() {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= 20; i++) {
      job.link("B%02d".formatted(i), 2, 150);
    }
    job.link("G01", 1, 150)
        .zero(ZeroFixture.zero("Z1").verification(0.4))
        .zero(ZeroFixture.zero("Z2").source("S2").launch("L2").receive("R2"))
        .readAll("Z1", MORNING, l -> l.id().startsWith("B"), 1310, 1550)
        .readAll("Z2", MORNING, l -> l.id().startsWith("G"), 1310, 1550)
        .change(of("G01/1"), loss(r -> 1.8));
    List<Action> actions = actions(job);
    assertThat(actions).hasSize(2);
    assertThat(actions).extracting(Action::rank).containsExactly(1, 2);
    assertThat(actions.get(0).what()).contains("Z1", "set a new zero", "20 links");
    assertThat(actions.get(0).frees()).hasSize(40);
    assertThat(actions.get(0).helps()).isEqualTo(40);
    assertThat(actions.get(0).minutes()).isEqualTo(Handling.RE_ZERO + 20 * Handling.RETEST_LINK);
    assertThat(actions.get(0).where()).isEqualTo("Kiln room");
    assertThat(actions.get(1).frees()).containsExactly(new FibreId("G01", 1));
    assertThat(actions.get(1).minutes()).isEqualTo(Handling.CLEAN_AND_RETEST);
  }

  @Test
  void aCheapCleaningComesBeforeAReZeroThatFreesFewForMuchTime() {
    JobFixture job =
        JobFixture.singleMode()
            .link("B01", 1, 150)
            .link("G01", 1, 150)
            .zero(ZeroFixture.zero("Z1").verification(0.4))
            .zero(ZeroFixture.zero("Z2").source("S2").launch("L2").receive("R2"))
            .readAll("Z1", MORNING, l -> l.id().equals("B01"), 1310, 1550)
            .readAll("Z2", MORNING, l -> l.id().equals("G01"), 1310, 1550)
            .change(of("G01/1"), loss(r -> 1.8));
    assertThat(actions(job))
        .first()
        .extracting(Action::frees)
        .isEqualTo(List.of(new FibreId("G01", 1)));
  }

  @Test
  void aFibreWithTwoObstaclesIsFreedOnlyAfterBoth() {
    // A-B under an unverified zero, B-A under a zero that is not on record.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .zero(ZeroFixture.zero("Z1").unverified())
            .readAll("Z1", 1310, 1550)
            .change(
                towards(B_TO_A),
                r ->
                    reading(
                        r.link(),
                        r.fibre(),
                        B_TO_A,
                        r.wavelength().nm(),
                        r.lossDb(),
                        "Z9",
                        r.measuredAt()));
    List<Action> actions = actions(job);
    assertThat(actions).hasSize(2);
    assertThat(actions.get(0).frees()).isEmpty();
    assertThat(actions.get(0).helps()).isEqualTo(1);
    assertThat(actions.get(1).frees()).containsExactly(new FibreId("K001", 1));
    assertThat(actions.get(1).helps()).isEqualTo(1);
  }

  @Test
  void aDeedThatFreesAFibreOutrightComesBeforeOneOfTwoThatAFibreNeeds() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 1, 150)
            .link("K002", 1, 150)
            .zero(ZeroFixture.zero("Z1").directions(A_TO_B).unverified())
            .zero(ZeroFixture.zero("Z2").source("S2").launch("L2").receive("R2"))
            .readAll("Z1", MORNING, l -> l.id().equals("K001"), 1310, 1550)
            .readAll("Z2", MORNING, l -> l.id().equals("K002"), 1310, 1550)
            .change(of("K002/1"), loss(r -> 1.8));
    List<Action> actions = actions(job);
    assertThat(actions).extracting(Action::minutes).containsOnly(5.0);
    assertThat(actions).hasSize(3);
    assertThat(actions.get(0).frees()).extracting(FibreId::toString).containsExactly("K002/1");
  }

  @Test
  void aNewZeroAlsoSettlesWhetherTheOldOneWasGood() {
    // Outside its power window, and unverified: setting it anew is the one deed.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 2, 150)
            .zero(ZeroFixture.zero("Z1").unverified().power(-12))
            .readAll("Z1", 1310, 1550);
    assertThat(actions(job))
        .singleElement()
        .extracting(Action::what)
        .asString()
        .contains("set a new zero");
  }

  @Test
  void onlyTheFibreWithASecondObstacleWaitsForItsSecondDeed() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 3, 150)
            .zero(ZeroFixture.zero("Z1").unverified())
            .readAll("Z1", 1310, 1550)
            .without(of("K001/2").and(towards(A_TO_B)));
    List<Action> actions = actions(job);
    assertThat(actions.get(0).what()).startsWith("Read the launch cord of zero Z1");
    assertThat(actions.get(0).frees())
        .extracting(FibreId::toString)
        .containsExactly("K001/1", "K001/3");
    assertThat(actions.get(0).helps()).isEqualTo(3);
    assertThat(actions.get(1).frees()).extracting(FibreId::toString).containsExactly("K001/2");
  }

  @Test
  void doubtsThatOneDeedSettlesShareIt() {
    // Unverified, and below the glass: both are settled by verifying the zero.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 2, 150)
            .zero(ZeroFixture.zero("Z1").unverified())
            .readAll("Z1", 1310, 1550)
            .change(of("K001/1"), loss(r -> -0.3));
    assertThat(actions(job)).singleElement().extracting(a -> a.frees().size()).isEqualTo(2);
  }

  @Test
  void settingAZeroAnewAlsoSettlesWhetherTheOldOneWasGood() {
    // A zero that must be set anew, and one fibre under it below the glass: nobody need verify the
    // old zero once all of its links are retested.
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 2, 150)
            .zero(ZeroFixture.zero("Z1").verification(0.5))
            .readAll("Z1", 1310, 1550)
            .change(of("K001/1"), loss(r -> -0.3));
    assertThat(actions(job))
        .singleElement()
        .satisfies(
            action -> {
              assertThat(action.what()).contains("set a new zero");
              assertThat(action.frees()).hasSize(2);
            });
  }

  @Test
  void whatIsProvedNeedsNothing() {
    JobFixture job =
        JobFixture.singleMode()
            .link("K001", 2, 150)
            .zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", 1310, 1550)
            .reading(reading("K001", 1, A_TO_B, 1310, 0.4, "Z1", LATER));
    Judgement judgement = Judge.judge(job.job());
    assertThat(judgement.doubts()).isNotEmpty();
    assertThat(judgement.actions()).isEmpty();
  }

  @Test
  void everyFibreThatIsNotProvedIsFreedOnceInAll() {
    Job job = MessyJobs.job(7);
    Judgement judgement = Judge.judge(job);
    List<FibreId> unproved =
        judgement.fibres().stream()
            .filter(f -> f.standing() != Standing.PROVED)
            .map(FibreJudgement::fibre)
            .toList();
    assertThat(unproved).isNotEmpty();
    assertThat(judgement.actions().stream().flatMap(a -> a.frees().stream()))
        .containsExactlyInAnyOrderElementsOf(unproved);
  }
}
