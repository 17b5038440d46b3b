package ferrule.app;

import ferrule.core.allowance.LossSum;
import ferrule.core.allowance.Term;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Decibels;
import ferrule.core.optics.Wavelength;
import ferrule.core.plan.Advice;
import ferrule.core.plan.Hours;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.KitList;
import ferrule.core.plan.LinkPlan;
import ferrule.core.plan.Question;
import ferrule.core.plan.Range;
import ferrule.core.plan.WalkOrder;
import ferrule.core.plan.WalkOrder.Stop;
import ferrule.core.plant.Link;
import ferrule.core.trust.Handling;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** A plan in words. */
public final class PlanText {

  private static final int FEW = 20;

  private static final String CAUTION =
      "Caution: the light used for testing is invisible; never look into a fibre or a plug, never"
          + " clean or mate a lit fibre; fibre ends and shards pierce the skin. Local codes, the"
          + " network owner and licensed practice decide what may be done.";

  private PlanText() {}

  /**
   * Prints a plan.
   *
   * @param all whether to list every link, question and stop, however many
   */
  public static void print(Terminal terminal, JobPlan plan, boolean all) {
    PrintWriter out = terminal.out();
    heading(terminal, plan);
    questions(terminal, plan.questions(), all);
    links(terminal, plan, all);
    methods(terminal, plan);
    kit(terminal, plan);
    faces(terminal, plan);
    hours(terminal, plan);
    walk(terminal, plan.walk(), all);
    Lines.say(out, CAUTION);
  }

  /** Prints one link with every term. */
  public static void link(Terminal terminal, JobPlan plan, LinkPlan link) {
    PrintWriter out = terminal.out();
    Link of = link.link();
    Lines.say(
        out,
        terminal.strong(
            "Link "
                + of.id()
                + ", "
                + of.category().label()
                + ", "
                + Words.count(of.fibres(), "fibre")
                + ", "
                + Decibels.shown(of.lengthM())
                + " m"));
    Lines.say(out, "  A " + of.a().where() + ", " + of.a().connector());
    Lines.say(out, "  B " + of.b().where() + ", " + of.b().connector());
    for (LinkPlan.Planned planned : link.planned()) {
      out.println();
      Lines.say(
          out, terminal.strong(planned.wavelength() + ", " + plan.requirement().method().word()));
      Lines.say(out, "  limit " + db(planned.allowance().limitDb()));
      terms(out, planned.allowance().limitTerms());
      planned.allowance().lacking().forEach(l -> Lines.say(out, "    lacking: " + l));
      Lines.say(
          out,
          "  expected "
              + db(planned.allowance().expectedDb())
              + " ± "
              + db(2 * planned.allowance().expectedSdDb())
              + " (k = 2)");
      terms(out, planned.allowance().expectedTerms());
      Lines.say(
          out,
          "  the limit hides a fault of "
              + db(planned.hidesDb())
              + " ± "
              + db(2 * planned.hidesSdDb()));
    }
    out.println();
    Lines.say(
        out,
        "advised: "
            + advised(link.advice())
            + ": "
            + link.advice().why()
            + " ("
            + link.advice().source()
            + ")");
  }

  private static void terms(PrintWriter out, LossSum sum) {
    for (Term term : sum.terms()) {
      Lines.say(
          out,
          String.format(
              Locale.ROOT,
              "    %6s  %s %s x %s dB, %s: %s",
              Decibels.shown(term.loss().value()),
              count(term.count()),
              term.part().unit(),
              Decibels.shown(term.part().eachDb()),
              term.part().what(),
              term.part().source().line()));
    }
  }

  private static String count(double count) {
    return count == Math.rint(count)
        ? Long.toString((long) count)
        : String.format(Locale.ROOT, "%.3f", count);
  }

  private static String db(double value) {
    return Double.isNaN(value) ? "none" : Decibels.shown(value) + " dB";
  }

  private static void heading(Terminal terminal, JobPlan plan) {
    PrintWriter out = terminal.out();
    Requirement asked = plan.requirement();
    Lines.say(out, terminal.strong(asked.title()));
    Lines.say(
        out,
        "Plan for "
            + plan.day()
            + ": "
            + Words.count(plan.links().size(), "link")
            + ", "
            + plan.faces().linkFaces() / 2
            + " fibres; "
            + asked.rulebook().id()
            + ", "
            + asked.method().word()
            + ", "
            + (asked.directions() == Requirement.Directions.BOTH
                ? "both directions"
                : "one direction")
            + ", "
            + asked.wavelengths().stream()
                .map(Wavelength::toString)
                .collect(Collectors.joining(", ")));
    if (asked.rulebook().figuresFromMemory() > 0) {
      Lines.say(
          out,
          terminal.faint(
              asked.rulebook().figuresFromMemory()
                  + " figures of the rulebook are from memory: confirm against the standard"));
    }
    out.println();
  }

  private static void questions(Terminal terminal, List<Question> questions, boolean all) {
    PrintWriter out = terminal.out();
    if (questions.isEmpty()) {
      Lines.say(out, "The papers raise no question.");
      out.println();
      return;
    }
    Lines.say(out, terminal.strong("Ask the owner before the first test:"));
    int number = 0;
    for (Question question : questions) {
      if (!all && number == FEW) {
        Lines.say(out, "  and " + (questions.size() - FEW) + " more; --all lists them");
        break;
      }
      Lines.say(out, "  " + ++number + ". " + question.text());
      Lines.say(out, "     [" + question.kind().id() + "; rests on: " + question.source() + "]");
      Lines.say(
          out,
          "     If found at close-out: "
              + lowered(question.late().what())
              + ", "
              + question.late().minutes().timeShown()
              + ".");
    }
    out.println();
  }

  private static String lowered(String text) {
    return Character.toLowerCase(text.charAt(0)) + text.substring(1);
  }

  private static void links(Terminal terminal, JobPlan plan, boolean all) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong("Limit and expected loss, dB (± is two standard deviations):"));
    out.println(
        String.format(
            Locale.ROOT,
            "  %-12s %-5s %9s  %7s %7s %15s %15s",
            "link",
            "fibre",
            "m",
            "nm",
            "limit",
            "expected",
            "hides a fault"));
    int told = 0;
    for (LinkPlan link : plan.links()) {
      if (!all && told == FEW) {
        Lines.say(
            out,
            "  and "
                + (plan.links().size() - FEW)
                + " more; --all lists them, --link LINK unfolds one to its terms");
        break;
      }
      told++;
      if (link.planned().isEmpty()) {
        out.println(row(link.link(), "none", "none", "none", "none"));
      }
      for (LinkPlan.Planned planned : link.planned()) {
        out.println(
            row(
                link.link(),
                Integer.toString(planned.wavelength().nm()),
                plain(planned.allowance().limitDb()),
                plain(planned.allowance().expectedDb())
                    + plusMinus(planned.allowance().expectedSdDb()),
                plain(planned.hidesDb()) + plusMinus(planned.hidesSdDb())));
      }
    }
    out.println();
  }

  private static String row(Link link, String nm, String limit, String expected, String hides) {
    return String.format(
        Locale.ROOT,
        "  %-12s %-5s %9s  %7s %7s %15s %15s",
        link.id(),
        link.category().label(),
        Decibels.shown(link.lengthM()),
        nm,
        limit,
        expected,
        hides);
  }

  private static String plain(double db) {
    return Double.isNaN(db) ? "none" : Decibels.shown(db);
  }

  private static String plusMinus(double sd) {
    return Double.isNaN(sd) ? "" : " ± " + Decibels.shown(2 * sd);
  }

  private static String advised(Advice advice) {
    return advice.method().word() + (advice.trace() ? ", and a trace" : "");
  }

  private static void methods(Terminal terminal, JobPlan plan) {
    PrintWriter out = terminal.out();
    Map<Advice, Integer> counts = new LinkedHashMap<>();
    plan.links().forEach(l -> counts.merge(l.advice(), 1, Integer::sum));
    Lines.say(out, terminal.strong("Method advised:"));
    counts.forEach(
        (advice, count) ->
            Lines.say(
                out,
                "  "
                    + Words.count(count, "link")
                    + " "
                    + advised(advice)
                    + ": "
                    + advice.why()
                    + (advice.trace() ? "; a trace, for splices or length" : "")
                    + " ("
                    + advice.source()
                    + ")"));
    out.println();
  }

  private static void kit(Terminal terminal, JobPlan plan) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong("Kit:"));
    for (KitList.CordSets set : plan.kit().cords()) {
      Lines.say(
          out,
          "  cords for "
              + set.setup().shown()
              + ": sets of "
              + set.cordsInSet()
              + ", "
              + set.grade()
              + "-grade; "
              + set.matings()
              + (set.matings() == 1 ? " mating" : " matings")
              + " of each plug at the link in one direction, "
              + set.matingsIfSwapped()
              + " if cords change ends for the second; as asked they use up "
              + set.sets().countShown()
              + (set.sets().high() == 1 ? " set" : " sets")
              + "; "
              + set.spares()
              + " spare"
              + (set.onRecord().isEmpty()
                  ? "; none on record"
                  : "; on record: " + String.join(", ", set.onRecord())));
    }
    for (KitList.Item item : plan.kit().items()) {
      Lines.say(out, "  " + item.what() + ": " + item.amount() + " (" + item.why() + ")");
    }
    out.println();
  }

  private static void faces(Terminal terminal, JobPlan plan) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong("End faces to inspect:"));
    Lines.say(
        out,
        "  one direction "
            + plan.faces().total(1)
            + ": "
            + plan.faces().linkFaces()
            + " of the links, "
            + plan.faces().cordFaces()
            + " of cords before they are mated; both directions with cords changing ends "
            + plan.faces().total(2)
            + " (8 and 12 for a duplex link)");
    Lines.say(
        out,
        "  and "
            + plan.zeroFaces()
            + " cord faces for each duplex zero with "
            + plan.requirement().method().cords()
            + (plan.requirement().method().cords() == 1 ? " cord" : " cords"));
    out.println();
  }

  private static void hours(Terminal terminal, JobPlan plan) {
    PrintWriter out = terminal.out();
    Hours hours = plan.hours();
    Lines.say(out, terminal.strong("Hours of a crew of two (twice that in labour):"));
    out.println(String.format(Locale.ROOT, "  %-50s %8s %8s %8s", "", "least", "usual", "most"));
    for (Hours.Row row : hours.rows()) {
      Range total = row.total();
      out.println(
          String.format(
              Locale.ROOT,
              "  %-50s %8.1f %8.1f %8.1f%s",
              row.choice().shown(),
              total.low() / 60,
              total.usual() / 60,
              total.high() / 60,
              row.equals(hours.required()) ? "  asked" : ""));
    }
    Hours.Row asked = hours.required();
    Lines.say(
        out,
        "  of which, as asked: tests "
            + asked.tests().timeShown()
            + "; setting up "
            + asked.setUp().timeShown()
            + "; zeros "
            + asked.zeros().timeShown()
            + "; verifying "
            + asked.verification().timeShown()
            + "; first fails put right "
            + asked.repairs().timeShown());
    Lines.say(out, "  from " + hours.pace().origin());
    if (hours.office().usual() >= 1) {
      Lines.say(out, "  in the office, if the names are right: " + hours.office().timeShown());
    }
    Lines.say(
        out,
        "  verify a zero "
            + plan.verify().shown()
            + " ("
            + plan.verify().rangeShown()
            + "; "
            + (plan.verify().linksTested() == 0
                ? "one zero spoiled in 500 links: common practice, no source"
                : plan.verify().basis())
            + "), and always before leaving a place");
    out.println();
  }

  private static void walk(Terminal terminal, WalkOrder walk, boolean all) {
    PrintWriter out = terminal.out();
    Lines.say(
        out,
        terminal.strong(
            "Walk: " + effort(walk.effort()) + "; in schedule order " + effort(walk.schedule())));
    Lines.say(
        out,
        "  "
            + String.format(Locale.ROOT, "%.2f", walk.ratio())
            + " of the schedule's minutes ("
            + Math.round(Handling.SET_UP)
            + " a walk, "
            + Math.round(Handling.RE_ZERO)
            + " a zero); "
            + (walk.proved() ? "no order is better" : "the best found, not proved to be the best"));
    int number = 0;
    for (Stop stop : walk.stops()) {
      if (!all && number == FEW) {
        Lines.say(out, "  and " + (walk.stops().size() - FEW) + " more stops; --all lists them");
        break;
      }
      Lines.say(
          out,
          "  "
              + ++number
              + ". "
              + stop.places()
              + ", "
              + stop.setup().shown()
              + ": "
              + named(stop.links()));
    }
    out.println();
  }

  private static String effort(WalkOrder.Effort effort) {
    return Words.count(effort.walks(), "walk") + ", " + Words.count(effort.zeros(), "zero");
  }

  private static String named(List<Link> links) {
    String first = links.get(0).id();
    return links.size() == 1
        ? first
        : Words.count(links.size(), "link")
            + ", "
            + first
            + " to "
            + links.get(links.size() - 1).id();
  }

  /** Counts in words. */
  private static final class Words {

    static String count(long number, String noun) {
      return number + " " + noun + (number == 1 || noun.endsWith("s") ? "" : "s");
    }
  }
}
