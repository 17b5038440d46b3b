package ferrule.core.plan;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.AllowanceRecipes;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.optics.Decibels;
import ferrule.core.plan.ApplicationLimits.Demand;
import ferrule.core.plant.FeedTree;
import ferrule.core.plant.Link;
import ferrule.core.uncertainty.OrderStats;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/** What the link schedule says, held against method, limits, itself and applications. */
final class LinkQuestions {

  /** Feet in a metre; exact by definition of the foot. */
  private static final double FEET = 1 / 0.3048;

  /** How near to that a ratio must come. Assumed, no source. */
  private static final double FEET_NEAR = 0.1;

  /** How far lengths between two places may differ and still be told alike. Assumed, no source. */
  private static final double ALIKE = 1.5;

  private static final int FEWEST_ALIKE = 4;

  private LinkQuestions() {}

  static void ask(Papers papers, Consumer<Question> out) {
    methodEnds(papers, out);
    tightLimits(papers, out);
    lengths(papers, out);
    for (String application : papers.job.requirement().applications()) {
      application(papers, application, out);
    }
  }

  private static void methodEnds(Papers papers, Consumer<Question> out) {
    Method method = papers.job.requirement().method();
    if (method == Method.THREE_CORD) {
      return;
    }
    papers.bySetup.forEach(
        (setup, links) -> {
          if (!setup.endsMate()) {
            out.accept(
                new Question(
                    QuestionKind.METHOD_ENDS,
                    "The method required is "
                        + method.word()
                        + ", but the ends of "
                        + Papers.named(links)
                        + " are "
                        + setup.first()
                        + " and "
                        + setup.second()
                        + ": the plugs of launch and receive cord cannot be mated, so the zero "
                        + (method == Method.TWO_CORD ? "cannot be set" : "cannot be verified")
                        + ". May these be read with three cords, the limit without end"
                        + " connections?",
                    "common practice, no source: three cords where connectors force it",
                    Papers.ids(links),
                    papers.prices.readAgain(links)));
          }
        });
  }

  private static void tightLimits(Papers papers, Consumer<Question> out) {
    List<Link> tight = new ArrayList<>();
    double most = 0;
    for (LinkPlan plan : papers.links) {
      double worst = 0;
      for (LinkPlan.Planned planned : plan.planned()) {
        worst = Math.max(worst, -planned.hidesDb());
      }
      if (worst > 0) {
        tight.add(plan.link());
        most = Math.max(most, worst);
      }
    }
    if (!tight.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.LIMIT_TIGHT,
              "Good work usually loses more than the limit allows on "
                  + Papers.named(tight)
                  + ", by up to "
                  + Decibels.shown(most)
                  + " dB. Is the limit meant as it stands, and are lengths and counts right?",
              "limit and expected loss of the same links",
              Papers.ids(tight),
              papers.prices.repair(tight)));
    }
  }

  private record Run(String placeA, String placeB) {}

  private static void lengths(Papers papers, Consumer<Question> out) {
    Map<Run, List<Link>> runs = new LinkedHashMap<>();
    for (Link link : papers.job.links()) {
      WalkOrder.Key key = WalkOrder.Key.of(link);
      if (!key.placeA().isEmpty() && !key.placeB().isEmpty()) {
        runs.computeIfAbsent(new Run(key.placeA(), key.placeB()), k -> new ArrayList<>()).add(link);
      }
    }
    List<Link> odd = new ArrayList<>();
    runs.values().forEach(links -> odd.addAll(inFeet(links)));
    if (!odd.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.LENGTH_UNIT,
              Papers.named(odd)
                  + (odd.size() == 1 ? " is" : " are")
                  + " listed about 3.28 times as long as the others between the same places. Are"
                  + " these feet, in a column of metres?",
              "the schedule against itself; a foot is 0.3048 m",
              Papers.ids(odd),
              papers.prices.lookUp(
                  "The lengths are put right and the links judged again", odd.size())));
    }
  }

  /** Those of the links between two places that are longer by the ratio of a metre to a foot. */
  static List<Link> inFeet(List<Link> links) {
    if (links.size() < FEWEST_ALIKE) {
      return List.of();
    }
    double median = OrderStats.median(links.stream().mapToDouble(Link::lengthM).toArray());
    List<Link> odd = new ArrayList<>();
    List<Double> rest = new ArrayList<>();
    for (Link link : links) {
      double ratio = link.lengthM() / median;
      if (Math.abs(ratio / FEET - 1) <= FEET_NEAR) {
        odd.add(link);
      } else {
        rest.add(link.lengthM());
      }
    }
    boolean alike =
        2 * odd.size() < links.size() && Collections.max(rest) <= ALIKE * Collections.min(rest);
    return alike ? odd : List.of();
  }

  private static void application(Papers papers, String name, Consumer<Question> out) {
    // An application meets both end connections, however they were tested.
    AllowanceRecipes recipes =
        new AllowanceRecipes(papers.job.requirement().rulebook(), Method.ONE_CORD);
    List<Link> lossy = new ArrayList<>();
    List<Link> far = new ArrayList<>();
    List<Link> bright = new ArrayList<>();
    double mostShort = 0;
    Map<String, List<String>> feeding = FeedTree.children(papers.job.links());
    double mostLoss = 0;
    double fails = 0;
    double mostM = 0;
    String source = "";
    for (Link link : papers.job.links()) {
      Demand demand = papers.applications.of(name, link).orElse(null);
      if (demand == null) {
        continue;
      }
      source = demand.source();
      Allowance allowance =
          recipes.of(link.category(), demand.wavelength(), TestPlugs.REFERENCE).of(link);
      double limit = allowance.limitDb();
      if (demand.mostLossDb().isPresent() && limit > demand.mostLossDb().getAsDouble()) {
        lossy.add(link);
        mostLoss = Math.max(mostLoss, limit - demand.mostLossDb().getAsDouble());
        fails += Papers.failing(allowance, demand.mostLossDb().getAsDouble());
      }
      double usual = allowance.expectedWithSplittersDb();
      if (demand.leastLossDb().isPresent()
          && !feeding.containsKey(link.id())
          && usual < demand.leastLossDb().getAsDouble()) {
        bright.add(link);
        mostShort = Math.max(mostShort, demand.leastLossDb().getAsDouble() - usual);
      }
      if (demand.longestM().isPresent() && link.lengthM() > demand.longestM().getAsDouble()) {
        far.add(link);
        mostM = Math.max(mostM, link.lengthM() - demand.longestM().getAsDouble());
      }
    }
    if (!lossy.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.APPLICATION_LIMIT,
              name
                  + " is to run over "
                  + Papers.named(lossy)
                  + ", but allows up to "
                  + Decibels.shown(mostLoss)
                  + " dB less than the cabling's limit: a link may pass and not carry it. Shall the"
                  + " tighter one decide?",
              source,
              Papers.ids(lossy),
              papers.prices.judgeAgain(fails)));
    }
    if (!bright.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.APPLICATION_LEAST,
              name
                  + " is to run over "
                  + Papers.named(bright)
                  + ", which usually lose up to "
                  + Decibels.shown(mostShort)
                  + " dB less than its receivers need: they are overloaded and may be damaged. Which"
                  + " attenuator goes where, or which class shall it be?",
              source,
              Papers.ids(bright),
              papers.prices.repair(bright)));
    }
    if (!far.isEmpty()) {
      out.accept(
          new Question(
              QuestionKind.APPLICATION_LENGTH,
              name
                  + " is to run over "
                  + Papers.named(far)
                  + ", longer than it reaches by up to "
                  + Decibels.shown(mostM)
                  + " m. Shall it run there, and who answers for it?",
              source,
              Papers.ids(far),
              papers.prices.repair(far)));
    }
  }
}
