package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Conflict;
import ferrule.core.job.Conflict.Matter;
import ferrule.core.job.Job;
import ferrule.core.zero.ZeroLevel;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Facts that two crews entered differently. */
class CrewConflictTest {

  private static Job job() {
    return JobFixture.singleMode()
        .link("K001", 1, 150)
        .link("K002", 1, 150)
        .zero(ZeroFixture.zero("Z1"))
        .readAll("Z1", 1310, 1550)
        .job();
  }

  private static Judgement with(Matter matter, String id) {
    return Judge.judge(job().with(List.of(new Conflict(matter, id, "two values"))));
  }

  private static void assertReaches(Judgement judgement, String subject, String... fibres) {
    assertThat(judgement.doubts()).hasSize(1);
    Doubt doubt = judgement.doubts().get(0);
    assertThat(doubt.kind()).isEqualTo(DoubtKind.PAPER_CONFLICT);
    assertThat(doubt.blocking()).isTrue();
    assertThat(doubt.subject().shown()).isEqualTo(subject);
    assertThat(doubt.reach().fibres()).extracting(Object::toString).containsExactly(fibres);
    assertThat(doubt.next().what())
        .isEqualTo(
            "Ask both crews which value is right for "
                + subject
                + ", and enter it with ferrule add --supersede");
    assertThat(judgement.totals()).containsEntry(Standing.DOUBTFUL, fibres.length);
  }

  @Test
  void aJobWithoutThemIsProved() {
    assertThat(Judge.judge(job()).allProved()).isTrue();
  }

  @Test
  void theRequirementReachesEveryReadingAndALinkItsOwn() {
    assertReaches(with(Matter.PAPER, ""), "the job", "K001/1", "K002/1");
    assertReaches(with(Matter.LINK, "K002"), "link K002", "K002/1");
  }

  @Test
  void aZeroReachesWhatWasReadUnderItAndACordWhatWasReadThroughIt() {
    ZeroLevel level = job().zeros().get(0).levels().get(0);
    assertThat(level.launchCord()).isNotEmpty();
    assertReaches(with(Matter.ZERO, "Z1"), "zero Z1", "K001/1", "K002/1");
    assertReaches(
        with(Matter.CORD, level.launchCord()), "cord " + level.launchCord(), "K001/1", "K002/1");
  }

  @Test
  void whatNoReadingHangsOnIsLeftAlone() {
    for (Matter matter : List.of(Matter.LINK, Matter.ZERO, Matter.CORD)) {
      assertThat(with(matter, "K0").doubts()).isEmpty();
    }
  }
}
