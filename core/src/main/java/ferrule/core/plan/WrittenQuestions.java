package ferrule.core.plan;

import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.AllowanceRecipes;
import ferrule.core.job.OtherPapers;
import ferrule.core.job.OtherPapers.Traces;
import ferrule.core.job.Requirement;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.zero.Method;
import ferrule.core.zero.MethodNames;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/** What the owner's papers say, held against the requirement. */
final class WrittenQuestions {

  /** Limits that differ by less are one limit. */
  private static final double SAME_DB = 1e-9;

  private WrittenQuestions() {}

  static void ask(Papers papers, Consumer<Question> out) {
    Requirement requirement = papers.job.requirement();
    for (Rulebook other : requirement.papers().rulebooks()) {
      rulebooks(papers, other, out);
    }
    methodName(papers, requirement.papers().methodAsWritten(), out);
    traces(papers, requirement.papers(), out);
    directions(papers, out);
  }

  private static void rulebooks(Papers papers, Rulebook other, Consumer<Question> out) {
    Requirement requirement = papers.job.requirement();
    AllowanceRecipes recipes = new AllowanceRecipes(other, requirement.method());
    List<Link> moved = new ArrayList<>();
    double fails = 0;
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (LinkPlan plan : papers.links) {
      Link link = plan.link();
      boolean moves = false;
      double failing = 0;
      for (LinkPlan.Planned planned : plan.planned()) {
        AllowanceRecipe recipe =
            recipes.of(link.category(), planned.wavelength(), papers.fit.plugs(ZeroSetup.of(link)));
        double theirs = recipe.of(link).limitDb();
        double ours = planned.allowance().limitDb();
        if (Double.isNaN(theirs) != Double.isNaN(ours)) {
          moves = true;
        } else if (Math.abs(theirs - ours) > SAME_DB) {
          moves = true;
          least = Math.min(least, theirs - ours);
          most = Math.max(most, theirs - ours);
          failing = Math.max(failing, Papers.failing(planned.allowance(), theirs));
        }
      }
      if (moves) {
        fails += failing;
        moved.add(link);
      }
    }
    if (moved.isEmpty()) {
      return;
    }
    String by =
        least <= most
            ? " would have another limit, by " + signed(least) + " to " + signed(most) + " dB"
            : " would have a limit under one and none under the other";
    out.accept(
        new Question(
            QuestionKind.TWO_RULEBOOKS,
            "The papers name "
                + requirement.rulebook().id()
                + " and "
                + other.id()
                + ends(papers, requirement.rulebook(), other)
                + "; under the second "
                + Papers.named(moved)
                + by
                + ". Which of the two decides?",
            "the two rulebooks, figure by figure",
            Papers.ids(moved),
            papers.prices.judgeAgain(fails)));
  }

  private static String signed(double db) {
    return (db > 0 ? "+" : "") + Decibels.shown(db);
  }

  /** ": multimode end connection 0.50 against 0.30 dB". */
  private static String ends(Papers papers, Rulebook ours, Rulebook theirs) {
    Set<FibreKind> kinds = EnumSet.noneOf(FibreKind.class);
    papers.job.links().forEach(l -> kinds.add(l.category().kind()));
    List<String> told = new ArrayList<>();
    for (FibreKind kind : kinds) {
      Optional<Figure> one = ours.endLimit(kind, CordGrade.REFERENCE);
      Optional<Figure> two = theirs.endLimit(kind, CordGrade.REFERENCE);
      if (!one.map(Figure::value).equals(two.map(Figure::value))) {
        told.add(kind.word() + " end connection " + figure(one) + " against " + figure(two));
      }
    }
    return told.isEmpty() ? "" : ": " + String.join(", ", told);
  }

  private static String figure(Optional<Figure> figure) {
    return figure
        .map(
            f ->
                Decibels.shown(f.value())
                    + " dB"
                    + (f.provenance().fromMemory() ? " (from memory)" : ""))
        .orElse("no figure");
  }

  private static void methodName(Papers papers, String written, Consumer<Question> out) {
    if (written.isEmpty()) {
      return;
    }
    Method required = papers.job.requirement().method();
    Optional<Method> count = MethodNames.countIn(written);
    if (count.isPresent() && count.get() == required) {
      return;
    }
    String found;
    if (count.isPresent()) {
      found = "The papers ask for \"" + written + "\", the requirement says " + required.word();
    } else {
      found =
          "The papers name the method \""
              + written
              + "\", which is "
              + MethodNames.shown(written).orElse("known here from no document")
              + "; letters and numbers mean other counts of cords in other documents, and the"
              + " requirement says "
              + required.word();
    }
    out.accept(
        new Question(
            QuestionKind.METHOD_NAME,
            found + ". How many test cords shall stand between source and meter at the zero?",
            count.isPresent() ? "the papers against each other" : MethodNames.SOURCE,
            Papers.ids(papers.job.links()),
            papers.prices.readAgain(papers.job.links())));
  }

  private static void traces(Papers papers, OtherPapers written, Consumer<Question> out) {
    if (written.traces() != Traces.ALL) {
      return;
    }
    List<Link> vain =
        papers.job.links().stream().filter(link -> !Advice.traceIsOfUse(link)).toList();
    if (vain.isEmpty()) {
      return;
    }
    double longest = vain.stream().mapToDouble(Link::lengthM).max().orElseThrow();
    Range minutes = LateCost.Prices.traceMinutes(vain);
    out.accept(
        new Question(
            QuestionKind.TRACES_SHORT,
            "Traces are asked of every link, also of "
                + Papers.named(vain)
                + " without a splice and no longer than "
                + Decibels.shown(longest)
                + " m, where a trace shows little that the loss does not; both ends of"
                + " these cost "
                + hours(minutes)
                + " crew hours beside the walking. Are traces of these meant?",
            "trade quiz \"Special deliverables\": not useful on short premises links without"
                + " splices; needed above 300 to 500 m (common practice, no source)",
            Papers.ids(vain),
            papers.prices.traces(vain)));
  }

  private static String hours(Range minutes) {
    return Decibels.shown(minutes.low() / 60) + " to " + Decibels.shown(minutes.high() / 60);
  }

  private static void directions(Papers papers, Consumer<Question> out) {
    if (papers.job.requirement().directions() == Directions.BOTH) {
      return;
    }
    List<Link> spliced = papers.job.links().stream().filter(l -> l.splices() > 0).toList();
    if (!spliced.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.DIRECTIONS_SPLICED,
              "One direction is asked, but the loss of a splice reads otherwise from either end, and"
                  + " there are splices in "
                  + Papers.named(spliced)
                  + ". Shall these be read in both?",
              "ISO/IEC 14763-3 in public commentary (2014), and owners' specifications",
              Papers.ids(spliced),
              papers.prices.readAgain(spliced)));
    }
  }
}
