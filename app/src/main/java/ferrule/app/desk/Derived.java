package ferrule.app.desk;

import ferrule.app.desk.page.JobIndex;
import ferrule.app.desk.page.WhatIfPage;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.JobApplications;
import ferrule.core.application.ShippedApplications;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.ShippedLimits;
import ferrule.core.plant.Link;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Rejudged;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the pages need of one judgement: the index at once, the rest worked out when first asked
 * for.
 */
final class Derived {

  private final Judgement judgement;
  private final JobIndex index;
  private @Nullable JobPlan plan;
  private @Nullable JobApplications applications;
  private WhatIfPage.@Nullable Asked asked;
  private @Nullable Rejudged rejudged;

  Derived(Judgement judgement) {
    this.judgement = judgement;
    this.index = new JobIndex(judgement);
  }

  Judgement judgement() {
    return judgement;
  }

  JobIndex index() {
    return index;
  }

  /** The plan for today, UTC. */
  synchronized JobPlan plan() {
    LocalDate today = LocalDate.now(Clock.systemUTC());
    JobPlan known = plan;
    if (known == null || !known.day().equals(today)) {
      known = JobPlan.of(judgement, today, new ShippedLimits());
      plan = known;
    }
    return known;
  }

  synchronized JobApplications applications() {
    JobApplications known = applications;
    if (known == null) {
      known = JobApplications.of(judgement, ShippedApplications.all());
      applications = known;
    }
    return known;
  }

  /** The same of one link, without looking at the others. */
  List<ApplicationCheck> applications(Link link) {
    return JobApplications.of(judgement, link, ShippedApplications.all());
  }

  /** What would change; empty if what is supposed is what is agreed. The last one asked is kept. */
  synchronized Optional<Rejudged> supposed(WhatIfPage.Asked wanted) {
    if (wanted.isAgreed()) {
      return Optional.empty();
    }
    Rejudged known = rejudged;
    if (known == null || !wanted.equals(asked)) {
      known = Rejudged.of(judgement, wanted.from(judgement.ledger().requirement()));
      asked = wanted;
      rejudged = known;
    }
    return Optional.of(known);
  }
}
