package ferrule.core.application;

import ferrule.core.plant.FeedTree;
import ferrule.core.plant.Link;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
      checks.addAll(of(losses, link, applications));
    }
    List<String> wanted = judgement.ledger().requirement().applications();
    List<String> unknown =
        wanted.stream()
            .filter(name -> applications.stream().noneMatch(a -> a.isCalled(name)))
            .toList();
    return new JobApplications(links, checks, wanted, unknown);
  }

  /**
   * One link of a judged job against the applications that have limits for its fibre; nothing for a
   * link that feeds others.
   */
  public static List<ApplicationCheck> of(
      Judgement judgement, Link link, List<Application> applications) {
    if (judgement.ledger().job().links().stream().anyMatch(l -> l.fedBy().equals(link.id()))) {
      return List.of();
    }
    List<FibreJudgement> own =
        link.fibreIds().stream().map(judgement::fibre).flatMap(Optional::stream).toList();
    return of(new LinkLosses(judgement, own), link, applications);
  }

  private static List<ApplicationCheck> of(
      LinkLosses losses, Link link, List<Application> applications) {
    return applications.stream()
        .filter(a -> a.categories().contains(link.category()))
        .map(a -> ApplicationCheck.of(link, a, losses.of(link, a.wavelengths())))
        .toList();
  }

  /**
   * One application over all links that have limits for it.
   *
   * @param application with the limits of the first such fibre
   * @param carry how many links carry it
   * @param doNot how many do not
   * @param open of how many it cannot be told
   * @param firstNot the first link that does not; empty if every one does or may
   */
  public record Row(
      Application application,
      int carry,
      int doNot,
      int open,
      Optional<ApplicationCheck> firstNot) {

    private Row with(ApplicationCheck check) {
      boolean not = check.carriage() instanceof Carriage.DoesNot;
      boolean yes = check.carriage() instanceof Carriage.Carries;
      return new Row(
          application,
          carry + (yes ? 1 : 0),
          doNot + (not ? 1 : 0),
          open + (yes || not ? 0 : 1),
          firstNot.isPresent() || !not ? firstNot : Optional.of(check));
    }
  }

  /** The table of the job: checks gathered by application, in the order in which they come. */
  public static List<Row> rows(List<ApplicationCheck> checks) {
    Map<String, Row> rows = new LinkedHashMap<>();
    for (ApplicationCheck check : checks) {
      Application application = check.application();
      rows.merge(
          application.family() + "\n" + application.name(),
          new Row(application, 0, 0, 0, Optional.empty()).with(check),
          (before, one) -> before.with(check));
    }
    return List.copyOf(rows.values());
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
