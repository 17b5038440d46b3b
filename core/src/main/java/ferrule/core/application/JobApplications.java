package ferrule.core.application;

import ferrule.core.plant.Link;
import ferrule.core.trust.Judgement;
import java.util.ArrayList;
import java.util.List;

/**
 * Every link of a job against every application that has limits for its fibre. Limits are those of
 * a channel: equipment cords that are added to a link come on top of its loss and length.
 *
 * @param checks by link in the order of the schedule, then by application
 * @param wanted applications that the job requires, as it names them
 * @param unknown those of {@code wanted} of which no limit is held
 */
public record JobApplications(
    List<ApplicationCheck> checks, List<String> wanted, List<String> unknown) {

  /** Copies the lists. */
  public JobApplications {
    checks = List.copyOf(checks);
    wanted = List.copyOf(wanted);
    unknown = List.copyOf(unknown);
  }

  /** Compares the links of a judged job with applications. */
  public static JobApplications of(Judgement judgement, List<Application> applications) {
    LinkLosses losses = new LinkLosses(judgement);
    List<ApplicationCheck> checks = new ArrayList<>();
    for (Link link : judgement.ledger().job().links()) {
      for (Application application : applications) {
        if (application.categories().contains(link.category())) {
          checks.add(
              ApplicationCheck.of(link, application, losses.of(link, application.wavelengths())));
        }
      }
    }
    List<String> wanted = judgement.ledger().requirement().applications();
    List<String> unknown =
        wanted.stream()
            .filter(name -> applications.stream().noneMatch(a -> a.isCalled(name)))
            .toList();
    return new JobApplications(checks, wanted, unknown);
  }

  /** The checks of one link. */
  public List<ApplicationCheck> of(Link link) {
    return checks.stream().filter(c -> c.link().equals(link)).toList();
  }

  /** Whether the job wants this application. */
  public boolean wants(Application application) {
    return wanted.stream().anyMatch(application::isCalled);
  }

  /**
   * Links that are not shown to carry what the job wants: every wanted application that has limits
   * for a link's fibre and that the link does not carry, or of which that cannot be told.
   */
  public List<ApplicationCheck> wanting() {
    return checks.stream()
        .filter(c -> wants(c.application()) && !(c.carriage() instanceof Carriage.Carries))
        .toList();
  }
}
