package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.job.Job;
import ferrule.core.plan.ApplicationLimits;
import ferrule.core.plan.JobPlan;
import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Plans of jobs whose papers and readings are spoiled at random. */
class MessyPlansTest {

  private static final LocalDate DAY = LocalDate.parse("2026-03-02");

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
  void whateverIsInAJobItHasASoundPlan(long seed) {
    Job job = MessyJobs.job(seed);
    JobPlan plan = JobPlan.of(job, DAY, ApplicationLimits.NONE);
    assertThat(plan.links()).hasSize(job.links().size());
    assertThat(plan.walk().ratio()).isBetween(0.0, 1.0);
    assertThat(plan.hours().required().total().usual()).isFinite().isNotNegative();
    assertThat(plan.questions())
        .allSatisfy(
            q -> {
              assertThat(q.text()).endsWith("?");
              assertThat(q.late().minutes().usual()).isPositive();
            });
    assertThat(JobPlan.of(job, DAY, ApplicationLimits.NONE).questions())
        .as("the same job gives the same questions")
        .isEqualTo(plan.questions());
  }
}
