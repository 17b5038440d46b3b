package ferrule.core.application;

import ferrule.core.plant.FeedTree;
import ferrule.core.plant.Link;
import ferrule.core.trust.Judgement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Every link of a job against every application that has limits for its fibre. Limits are those of
 * a channel: equipment cords that are added to a link come on top of its loss and length.
 *
 * @param links in the order of the schedule, without those that feed others
 * @param checks by link in the order of the schedule, then by application
 * @param wanted applications that the job requires, as it names them
 * @param unknown those of {@code wanted} of which no limit is held
 */
public record JobApplications(
    List<Link> links, List<ApplicationCheck> checks, List<String> wanted, List<String> unknown) {

  /** Copies the lists. */
  public JobApplications {
    links = List.copyOf(links);
    checks = List.copyOf(checks);
    wanted = List.copyOf(wanted);
    unknown = List.copyOf(unknown);
  }

  /** Compares the links of a judged job with applications. */
  public static JobApplications of(Judgement judgement, List<Application> applications) {
    LinkLosses losses = new LinkLosses(judgement);
    List<ApplicationCheck> checks = new ArrayList<>();
    // What feeds other links ends at a splitter, not at equipment.
    Set<String> feeders = FeedTree.children(judgement.ledger().job().links()).keySet();
    List<Link> links =
        judgement.ledger().job().links().stream().filter(l -> !feeders.contains(l.id())).toList();
    for (Link link : links) {
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
    return new JobApplications(links, checks, wanted, unknown);
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

  /**
   * Wanted applications that have limits, but none for the fibre of some links, with those links.
   * Whether such a link is meant to carry the application only the owner can say.
   */
  public SortedMap<String, List<Link>> undefined() {
    SortedMap<String, List<Link>> found = new TreeMap<>();
    for (String name : wanted) {
      if (unknown.contains(name)) {
        continue;
      }
      Set<Link> defined = new HashSet<>();
      for (ApplicationCheck check : checks) {
        if (check.application().isCalled(name)) {
          defined.add(check.link());
        }
      }
      List<Link> others = links.stream().filter(l -> !defined.contains(l)).toList();
      if (!others.isEmpty()) {
        found.put(name, others);
      }
    }
    return found;
  }

  /** Whether every link is shown to carry everything that the job wants. */
  public boolean allWantedCarried() {
    return unknown.isEmpty() && wanting().isEmpty() && undefined().isEmpty();
  }
}
