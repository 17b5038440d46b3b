package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FibreOutcome;
import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.plant.FibreId;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FaceDoubtsTest {

  private static final String A = "port:Kiln room / K001/1";
  private static final String B = "port:Glaze store / K001/1";

  private static JobFixture job(int fibres) {
    return JobFixture.singleMode()
        .link("K001", fibres, 150)
        .zero(ZeroFixture.zero("Z1"))
        .readAll("Z1", 1310, 1550)
        .faces(FaceDemand.ENDS);
  }

  private static List<Doubt> faceDoubts(JobFixture job) {
    return Judge.judge(job.job()).doubts().stream()
        .filter(d -> d.kind() == DoubtKind.FACE_REJECTED || d.kind() == DoubtKind.FACE_UNSEEN)
        .toList();
  }

  private static Standing standing(JobFixture job) {
    return Judge.judge(job.job()).fibres().get(0).standing();
  }

  @Test
  void aFibreIsProvedOnceBothItsEndsConform() {
    JobFixture job = job(1).face(A, "found", FaceOutcome.CONFORMS);
    assertThat(standing(job)).isEqualTo(Standing.OPEN);
    job.face(B, "found", FaceOutcome.CONFORMS);
    assertThat(standing(job)).isEqualTo(Standing.PROVED);
  }

  @Test
  void aRejectedEndMakesItsFibreDoubtfulAndSaysWhichAndWhy() {
    JobFixture job =
        job(1).face(A, "found", FaceOutcome.CONFORMS).face(B, "found", FaceOutcome.REJECTED);
    assertThat(standing(job)).isEqualTo(Standing.DOUBTFUL);
    assertThat(Judge.judge(job.job()).fibres().get(0).reasons())
        .anyMatch(
            reason ->
                reason.contains("end B at Glaze store / K001")
                    && reason.contains("rejected on face2.png"));
    assertThat(Judge.judge(job.job()).actions())
        .anyMatch(action -> action.what().contains("Make sure that K001/1 is dark"));
  }

  @Test
  void theLatestPictureCountsWhetherItIsBetterOrWorse() {
    JobFixture cleaned =
        job(1)
            .face(A, "found", FaceOutcome.REJECTED)
            .face(A, "cleaned", FaceOutcome.CONFORMS)
            .face(B, "found", FaceOutcome.CONFORMS);
    assertThat(faceDoubts(cleaned)).isEmpty();
    cleaned.face(A, "found", FaceOutcome.REJECTED);
    assertThat(faceDoubts(cleaned))
        .extracting(Doubt::kind)
        .containsExactly(DoubtKind.FACE_REJECTED);
  }

  @Test
  void latestIsByTimeAndNotByTheOrderHandedIn() {
    Optional<Instant> early = Optional.of(JobFixture.MORNING);
    Optional<Instant> late = Optional.of(JobFixture.MORNING.plusSeconds(60));
    JobFixture job =
        job(1)
            .face(B, "found", early, FaceOutcome.CONFORMS)
            .face(A, "cleaned", late, FaceOutcome.CONFORMS)
            .face(A, "found", early, FaceOutcome.REJECTED)
            .face(A, "found", Optional.empty(), FaceOutcome.REJECTED);
    assertThat(faceDoubts(job)).isEmpty();
  }

  @Test
  void withoutTimesTheLastHandedInCounts() {
    JobFixture job =
        job(1)
            .face(B, "found", Optional.empty(), FaceOutcome.CONFORMS)
            .face(A, "found", Optional.empty(), FaceOutcome.REJECTED)
            .face(A, "cleaned", Optional.empty(), FaceOutcome.CONFORMS);
    assertThat(faceDoubts(job)).isEmpty();
  }

  @Test
  void aPortNameThatSeveralEndsShareProvesNoneOfThem() {
    JobFixture job =
        job(1)
            .face("port:K001/1", "found", FaceOutcome.CONFORMS)
            .face("port:K001/1", "found", FaceOutcome.REJECTED);
    assertThat(faceDoubts(job))
        .singleElement()
        .satisfies(
            doubt -> {
              assertThat(doubt.kind()).isEqualTo(DoubtKind.FACE_UNSEEN);
              assertThat(doubt.evidence())
                  .anyMatch(item -> item.name().equals("port_not_told_apart"));
            });
  }

  @Test
  void aPictureOfARowCountsForEveryFibreInIt() {
    JobFixture job =
        job(12)
            .face("port:Kiln room / K001/1-12", "found", FaceOutcome.CONFORMS)
            .face("port:Glaze store / K001/1-11", "found", FaceOutcome.CONFORMS);
    assertThat(faceDoubts(job))
        .singleElement()
        .satisfies(
            doubt -> {
              assertThat(doubt.subject().id()).isEqualTo("K001/12");
              assertThat(doubt.next().minutes()).isEqualTo(Handling.INSPECT_FACE);
            });
  }

  private static FibreOutcome fibre(FaceOutcome outcome, String reason) {
    return new FibreOutcome(outcome, false, reason);
  }

  @Test
  void ofARowTheRejectedFibreIsDoubtedAndTheUnreadOneUnseenAndNoOther() {
    JobFixture job =
        job(4)
            .face("port:Kiln room / K001/1-4", "found", FaceOutcome.CONFORMS)
            .row(
                "port:Glaze store / K001/1-4",
                FaceOutcome.UNREADABLE,
                fibre(FaceOutcome.CONFORMS, "No limit is exceeded"),
                fibre(FaceOutcome.REJECTED, "Defect 1 of 4.0 µm: allowed is no defect"),
                fibre(FaceOutcome.UNREADABLE, "no cladding was found"),
                fibre(FaceOutcome.CONFORMS, "No limit is exceeded"));
    assertThat(faceDoubts(job))
        .extracting(doubt -> doubt.kind() + " " + doubt.subject().id())
        .containsExactly("FACE_REJECTED K001/2", "FACE_UNSEEN K001/3");
    Doubt rejected = faceDoubts(job).get(0);
    assertThat(rejected.reach().fibres()).extracting(FibreId::toString).containsExactly("K001/2");
    assertThat(rejected.line()).contains("end B at Glaze store / K001: Defect 1 of 4.0 µm");
    assertThat(rejected.evidence())
        .anyMatch(item -> item.toString().contains("unreadable: 1 of 4 fibres rejected"));
  }

  @Test
  void aRowListedForAnotherNumberOfFibresSpeaksForAllOfThem() {
    JobFixture job =
        job(3)
            .face("port:Kiln room / K001/1-3", "found", FaceOutcome.CONFORMS)
            .row(
                "port:Glaze store / K001/1-3",
                FaceOutcome.REJECTED,
                fibre(FaceOutcome.CONFORMS, "No limit is exceeded"),
                fibre(FaceOutcome.REJECTED, "Defect 1 of 4.0 µm: allowed is no defect"));
    assertThat(faceDoubts(job)).hasSize(3).allMatch(d -> d.kind() == DoubtKind.FACE_REJECTED);
  }

  @Test
  void aScratchIsNotSaidToBeDirtAndWhatCleaningCannotDoIsTold() {
    JobFixture scratched =
        job(1)
            .face(A, "found", FaceOutcome.CONFORMS)
            .row(
                B,
                FaceOutcome.REJECTED,
                fibre(FaceOutcome.REJECTED, "Scratch 1, 1.2 µm wide: allowed is no scratch"));
    Doubt doubt = faceDoubts(scratched).get(0);
    assertThat(doubt.causes().get(0).cause()).contains("scratch").contains("does not take away");
    JobFixture dirty =
        job(1)
            .face(A, "found", FaceOutcome.CONFORMS)
            .row(
                B,
                FaceOutcome.REJECTED,
                fibre(FaceOutcome.REJECTED, "6 defects of 2 to 5 µm: allowed is at most 5"));
    assertThat(faceDoubts(dirty).get(0).causes().get(0).cause())
        .isEqualTo("dirt that cleaning takes away");
  }

  @Test
  void anEndWithoutAPictureIsNamed() {
    JobFixture job =
        JobFixture.singleMode()
            .link("1:01", 1, 150)
            .zero(ZeroFixture.zero("Z1"))
            .readAll("Z1", 1310, 1550)
            .faces(FaceDemand.ENDS)
            .face("port:Kiln room / 1:01/1", "found", FaceOutcome.CONFORMS);
    assertThat(faceDoubts(job))
        .singleElement()
        .satisfies(
            doubt ->
                assertThat(doubt.line())
                    .contains("end B at Glaze store / 1:01 must be graded and is not"));
  }

  @Test
  void picturesOfOtherThingsChangeNothing() {
    JobFixture job =
        job(1)
            .face(A, "found", FaceOutcome.CONFORMS)
            .face(B, "found", FaceOutcome.CONFORMS)
            .face("cord:C1/1", "found", FaceOutcome.REJECTED)
            .face("port:Kiln room / K001/2", "found", FaceOutcome.REJECTED)
            .face("port:Kiln room / K001/0", "found", FaceOutcome.REJECTED)
            .face("port:Kiln room / K001/9-1", "found", FaceOutcome.REJECTED);
    assertThat(faceDoubts(job)).isEmpty();
    assertThat(standing(job)).isEqualTo(Standing.PROVED);
  }
}
