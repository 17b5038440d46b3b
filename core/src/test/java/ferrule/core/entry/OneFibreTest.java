package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Conflict;
import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judge;
import ferrule.core.uncertainty.Decision;
import ferrule.core.zero.Reading;
import java.util.List;
import org.junit.jupiter.api.Test;

/** One fibre by itself says what the judgement of the whole job says of limits and decisions. */
class OneFibreTest {

  private static final FibreId FIBRE = new FibreId("K3", 2);

  private static JobFixture fixture() {
    JobFixture fixture = JobFixture.singleMode().zero(ZeroFixture.zero("Z1"));
    for (int i = 1; i <= 6; i++) {
      fixture.link("K" + i, 2, 150 + 10 * i);
    }
    return fixture.readAll("Z1", 1310, 1550);
  }

  private static OneFibre look(Job job) {
    List<Reading> own = job.readings().stream().filter(JobFixture.of("K3/2")).toList();
    return OneFibre.of(job, FIBRE, own).orElseThrow();
  }

  private static FibreJudgement whole(Job job) {
    return Judge.judge(job).fibres().stream()
        .filter(f -> f.fibre().equals(FIBRE))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void lossesLimitsAndDecisionsAreThoseOfTheWholeJudgement() {
    Job job =
        fixture()
            .change(JobFixture.of("K3/2").and(JobFixture.at(1550)), JobFixture.loss(r -> 3.5))
            .job();
    FibreJudgement alone = look(job).fibre();
    FibreJudgement whole = whole(job);
    assertThat(alone.standing()).isEqualTo(whole.standing());
    assertThat(alone.readings()).hasSize(4);
    for (int i = 0; i < 4; i++) {
      assertThat(alone.readings().get(i).lossDb()).isEqualTo(whole.readings().get(i).lossDb());
      assertThat(alone.readings().get(i).limitDb()).isEqualTo(whole.readings().get(i).limitDb());
      assertThat(alone.readings().get(i).decision()).isEqualTo(whole.readings().get(i).decision());
    }
    assertThat(alone.readings())
        .extracting(r -> r.decision())
        .contains(Decision.ACCEPT, Decision.REJECT);
  }

  @Test
  void aLossBelowTheGlassIsDoubtedAtOnce() {
    Job job = fixture().change(JobFixture.of("K3/2"), JobFixture.loss(r -> -0.3)).job();
    assertThat(look(job).doubts()).extracting(d -> d.kind()).contains(DoubtKind.BELOW_FLOOR);
  }

  @Test
  void aFibreOfAGoodJobHasNoDoubts() {
    assertThat(look(fixture().job()).doubts()).isEmpty();
  }

  @Test
  void whatTwoCrewsEnteredDifferentlyIsDoubtedAtOnce() {
    Conflict ofThisLink = new Conflict(Conflict.Matter.LINK, "K3", "two lengths");
    Conflict ofAnother = new Conflict(Conflict.Matter.LINK, "K4", "two lengths");
    Job job = fixture().job();
    assertThat(look(job.with(List.of(ofThisLink, ofAnother))).doubts())
        .singleElement()
        .satisfies(d -> assertThat(d.kind()).isEqualTo(DoubtKind.PAPER_CONFLICT));
    assertThat(look(job.with(List.of(ofAnother))).doubts()).isEmpty();
  }

  @Test
  void aFibreThatIsNotScheduledHasNoJudgement() {
    Job job = fixture().job();
    assertThat(OneFibre.of(job, new FibreId("K3", 3), List.of())).isEmpty();
    assertThat(OneFibre.of(job, new FibreId("K9", 1), List.of())).isEmpty();
  }
}
