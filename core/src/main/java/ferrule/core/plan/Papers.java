package ferrule.core.plan;

import ferrule.core.allowance.Allowance;
import ferrule.core.job.Job;
import ferrule.core.plant.Link;
import ferrule.core.uncertainty.Conformity;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What those who ask questions look at. */
final class Papers {

  final Job job;
  final List<LinkPlan> links;
  final KitFit fit;
  final LateCost.Prices prices;
  final ApplicationLimits applications;

  /** The first day on which is tested. */
  final LocalDate first;

  /** The last, at the slowest pace. */
  final LocalDate last;

  /** Links by what a zero must fit, in schedule order. */
  final Map<ZeroSetup, List<Link>> bySetup = new LinkedHashMap<>();

  Papers(
      Job job,
      List<LinkPlan> links,
      KitFit fit,
      LateCost.Prices prices,
      ApplicationLimits applications,
      LocalDate first,
      LocalDate last) {
    this.job = job;
    this.links = links;
    this.fit = fit;
    this.prices = prices;
    this.applications = applications;
    this.first = first;
    this.last = last;
    job.links()
        .forEach(l -> bySetup.computeIfAbsent(ZeroSetup.of(l), k -> new ArrayList<>()).add(l));
  }

  /**
   * How likely a link is to lose more than another limit, if it is built as work usually is; 0 if
   * that is not known.
   */
  static double failing(Allowance allowance, double otherLimitDb) {
    double expected = allowance.expectedDb();
    double sd = allowance.expectedSdDb();
    return Double.isNaN(expected) || Double.isNaN(otherLimitDb)
        ? 0
        : 1 - Conformity.belowUpper(expected, otherLimitDb, sd);
  }

  static List<String> ids(List<Link> links) {
    return links.stream().map(Link::id).toList();
  }

  /** "12 links (K001, K002, K003 and 9 more)". */
  static String named(List<Link> links) {
    int few = 3;
    StringBuilder text = new StringBuilder(LateCost.count(links.size(), "link")).append(" (");
    text.append(String.join(", ", ids(links.subList(0, Math.min(few, links.size())))));
    if (links.size() > few) {
      text.append(" and ").append(links.size() - few).append(" more");
    }
    return text.append(')').toString();
  }
}
