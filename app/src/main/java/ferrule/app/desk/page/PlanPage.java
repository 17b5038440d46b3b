package ferrule.app.desk.page;

import ferrule.core.optics.Decibels;
import ferrule.core.plan.Advice;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.LinkPlan;
import ferrule.core.plan.Question;
import ferrule.core.plan.WalkOrder;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The plan of the job, from its papers.
 *
 * @param frame what surrounds it
 * @param plan the plan
 * @param questions the dearest questions
 * @param links one page of limits and expected losses
 * @param stops the first stops of the walk
 * @param methods how many links which method is advised for
 * @param refused what of the address was not understood
 */
public record PlanPage(
    Frame frame,
    JobPlan plan,
    List<Question> questions,
    Pager<LinkPlan> links,
    List<WalkOrder.Stop> stops,
    Map<Advice, Integer> methods,
    List<String> refused) {

  /** Links on one page. */
  public static final int LINKS_A_PAGE = 40;

  /** Questions and stops shown. */
  public static final int MOST = 60;

  /** Puts the page together. */
  public static PlanPage of(String jobName, JobPlan plan, int page, List<String> refused) {
    Map<Advice, Integer> methods = new LinkedHashMap<>();
    plan.links().forEach(l -> methods.merge(l.advice(), 1, Integer::sum));
    return new PlanPage(
        new Frame(jobName, Frame.Section.PLAN, "Plan"),
        plan,
        plan.questions().stream().limit(MOST).toList(),
        Pager.of(plan.links(), LINKS_A_PAGE, page),
        plan.walk().stops().stream().limit(MOST).toList(),
        methods,
        refused);
  }

  /** The address of another page of the links. */
  public String address(int page) {
    return "/plan?page=" + page + "#limits";
  }

  /** "2.60" or "none". */
  public static String db(double db) {
    return Double.isNaN(db) ? "none" : Decibels.shown(db);
  }

  /** "0.42 ± 0.21", two standard deviations. */
  public static String spread(double db, double sdDb) {
    return db(db) + (Double.isNaN(sdDb) ? "" : " ± " + Decibels.shown(2 * sdDb));
  }

  /** Hours with one decimal. */
  public static String hours(double minutes) {
    return String.format(Locale.ROOT, "%.1f", minutes / 60);
  }

  /** A sentence that goes on from another. */
  public static String lowered(String text) {
    return text.isEmpty() ? text : Character.toLowerCase(text.charAt(0)) + text.substring(1);
  }
}
