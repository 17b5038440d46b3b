package ferrule.app;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.LossSum;
import ferrule.core.allowance.Term;
import ferrule.core.array.JobArrays;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.FibreRanges;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.trust.Action;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Separation;
import ferrule.core.trust.Sight;
import ferrule.core.trust.Standing;
import ferrule.core.trust.Steps;
import ferrule.core.trust.VerificationInterval;
import ferrule.core.trust.Walk;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Contribution;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;

/** A judgement in words, for a terminal or a pipe. */
public final class JudgementText {

  private static final int FEW = 12;

  private final Terminal terminal;
  private final PrintWriter out;
  private final boolean all;

  private JudgementText(Terminal terminal, boolean all) {
    this.terminal = terminal;
    this.out = terminal.out();
    this.all = all;
  }

  /**
   * Prints a judgement.
   *
   * @param all whether to list everything, however long
   */
  public static void print(Terminal terminal, LoadedJob loaded, Judgement judgement, boolean all) {
    new JudgementText(terminal, all).print(loaded, judgement);
  }

  /** Prints one fibre unfolded. */
  public static void fibre(Terminal terminal, FibreJudgement fibre) {
    new JudgementText(terminal, true).fibre(fibre);
  }

  private void print(LoadedJob loaded, Judgement judgement) {
    Requirement requirement = judgement.ledger().requirement();
    Rulebook rulebook = requirement.rulebook();
    say(terminal.strong(requirement.title()));
    say(
        rulebook.id()
            + ", "
            + requirement.method().word()
            + ", "
            + (requirement.directions() == Requirement.Directions.BOTH
                ? "both directions"
                : "one direction")
            + ", decision rule "
            + requirement.decision().word());
    if (rulebook.figuresFromMemory() > 0) {
      say(
          terminal.faint(
              rulebook.figuresFromMemory()
                  + " figures of this rulebook are from memory: confirm against the standard"));
    }
    out.println();
    say(totals(judgement));
    zeros(judgement);
    arrays(judgement);
    actions(judgement);
    doubts(
        "Doubts that hold readings back",
        judgement.doubts().stream().filter(Doubt::blocking).toList());
    doubts(
        "Worth a look",
        judgement.doubts().stream().filter(d -> !d.blocking() && !isGap(d)).toList());
    if (!judgement.alarm().shown().isEmpty()) {
      out.println();
      say(terminal.faint(judgement.alarm().shown()));
    }
    String sight = Sight.ofZeros(judgement.sights());
    if (!sight.isEmpty()) {
      out.println();
      say(terminal.faint(sight));
    }
    standings(judgement);
    if (!loaded.problems().isEmpty()) {
      section("What was handed in and could not be used as it stood");
      limited(loaded.problems(), problem -> say("  " + problem.line()));
    }
    if (!loaded.notes().isEmpty()) {
      section("Notes");
      loaded.notes().forEach(note -> say("  " + note));
    }
  }

  private void arrays(Judgement judgement) {
    Job job = judgement.ledger().job();
    if (job.parts().isEmpty()) {
      return;
    }
    section("Array links");
    JobArrays arrays = new JobArrays(job.parts(), job.positions());
    limited(
        arrays.links(),
        link ->
            arrays
                .summary(link.id())
                .ifPresent(
                    array ->
                        say(
                            "  "
                                + array.link()
                                + "  "
                                + array.method()
                                + "; transmit to receive "
                                + array.transmit().result().shown()
                                + ": "
                                + array.transmit().why()
                                + "; "
                                + array.measured())));
  }

  private static boolean isGap(Doubt doubt) {
    return switch (doubt.kind()) {
      case MISSING, FACE_UNSEEN -> true;
      default -> false;
    };
  }

  private void say(String line) {
    Lines.say(out, line);
  }

  private static String totals(Judgement judgement) {
    Map<Standing, Integer> totals = judgement.totals();
    List<String> parts = new ArrayList<>();
    totals.forEach((standing, count) -> parts.add(count + " " + standing.word()));
    int fibres = judgement.fibres().size();
    return fibres + (fibres == 1 ? " fibre: " : " fibres: ") + String.join(", ", parts);
  }

  private void section(String title) {
    out.println();
    say(terminal.strong(title));
  }

  private <T> void limited(List<T> items, Consumer<T> printer) {
    int shown = all ? items.size() : Math.min(FEW, items.size());
    items.subList(0, shown).forEach(printer);
    if (shown < items.size()) {
      say("  ... and " + (items.size() - shown) + " more; --all lists them");
    }
  }

  private void zeros(Judgement judgement) {
    List<ZeroTrust> shaky =
        judgement.zeros().stream()
            .filter(z -> !z.trust().word().equals("verified") && !z.trust().word().equals("fresh"))
            .toList();
    if (judgement.zeros().isEmpty()) {
      return;
    }
    section(
        "Zeros: "
            + judgement.zeros().size()
            + ", of which "
            + (judgement.zeros().size() - shaky.size())
            + " are verified");
    limited(
        shaky,
        zero -> {
          say("  " + zero.zero().id() + " is " + zero.trust().word());
          zero.reasons().forEach(reason -> say("      " + reason));
        });
    VerificationInterval interval = VerificationInterval.of(judgement);
    say(
        "  Verify the zero in use "
            + interval.shown()
            + " or so (90 % range "
            + interval.rangeShown()
            + "; "
            + interval.basis()
            + "), and before leaving");
  }

  private void actions(Judgement judgement) {
    List<Action> actions = judgement.actions();
    if (actions.isEmpty()) {
      return;
    }
    section("What to do next");
    limited(
        actions,
        action -> {
          say(
              String.format(
                  Locale.ROOT,
                  "  %d. %s%s",
                  action.rank(),
                  action.where().isEmpty() ? "" : action.where() + ": ",
                  action.what()));
          say(
              "     about "
                  + Math.round(action.minutes())
                  + " min, "
                  + (action.frees().isEmpty()
                      ? "brings " + action.helps() + " nearer"
                      : "frees "
                          + action.frees().size()
                          + ": "
                          + FibreRanges.shown(action.frees(), all ? 1000 : 6)));
          result("confirmed", action.confirms());
          result("refuted", action.refutes());
        });
    walk(judgement.walk());
  }

  private void result(String word, String text) {
    if (!text.isEmpty()) {
      say("     " + word + " if: " + text);
    }
  }

  private void walk(Walk walk) {
    section(
        "The walk: "
            + Steps.count(walk.stops().size(), "stop")
            + ", about "
            + Math.round(walk.minutes())
            + " min; "
            + Math.round(Handling.SET_UP)
            + " of them at each place, to walk there and set up");
    limited(
        walk.stops(),
        stop ->
            say(
                "  "
                    + stop.number()
                    + ". "
                    + (stop.place().isEmpty() ? "Anywhere" : stop.place())
                    + ": "
                    + stop.actionsShown()
                    + ", about "
                    + Math.round(stop.minutes())
                    + " min"
                    + ", frees "
                    + stop.frees()
                    + (stop.number() > 1 ? ", by then " + stop.freedByThen() : "")));
  }

  private void doubts(String title, List<Doubt> doubts) {
    if (doubts.isEmpty()) {
      return;
    }
    section(title);
    limited(
        doubts,
        doubt -> {
          say("  " + doubt.kind().id() + ", " + doubt.line());
          if (!doubt.reach().isEmpty()) {
            say("      reaches " + FibreRanges.shown(doubt.reach().fibres(), all ? 1000 : 6));
          }
          say("      likely: " + causes(doubt.causes()));
          say(
              "      next: "
                  + doubt.next().what()
                  + " (about "
                  + Math.round(doubt.next().minutes())
                  + " min)");
          for (Separation separation : doubt.separations()) {
            say("      " + "The " + separation.confounded().substring("the ".length()));
            separation.lines().forEach(line -> say("          " + line));
          }
        });
  }

  private static String causes(List<Cause> causes) {
    List<String> parts = new ArrayList<>();
    for (Cause cause : causes) {
      parts.add(cause.cause());
    }
    return String.join("; less so: ", parts);
  }

  private void standings(Judgement judgement) {
    for (Standing standing : List.of(Standing.FAILED, Standing.DOUBTFUL, Standing.OPEN)) {
      List<FibreJudgement> fibres =
          judgement.fibres().stream().filter(f -> f.standing() == standing).toList();
      if (!fibres.isEmpty()) {
        section(Character.toUpperCase(standing.word().charAt(0)) + standing.word().substring(1));
        Map<List<String>, List<FibreId>> byReason = new LinkedHashMap<>();
        for (FibreJudgement f : fibres) {
          byReason.computeIfAbsent(f.reasons(), k -> new ArrayList<>()).add(f.fibre());
        }
        limited(
            new ArrayList<>(byReason.entrySet()),
            entry ->
                say(
                    "  "
                        + FibreRanges.shown(entry.getValue(), all ? 1000 : 6)
                        + "  "
                        + String.join("; ", entry.getKey())));
      }
    }
    if (all) {
      section("Proved");
      judgement.fibres().stream()
          .filter(f -> f.standing() == Standing.PROVED)
          .forEach(f -> say("  " + f.fibre() + "  " + String.join("; ", f.reasons())));
    }
  }

  private void fibre(FibreJudgement fibre) {
    say(
        terminal.strong(fibre.fibre() + " is " + fibre.standing().word())
            + ", "
            + fibre.link().category().label()
            + ", "
            + Decibels.shown(fibre.link().lengthM())
            + " m, "
            + fibre.link().a().where()
            + " to "
            + fibre.link().b().where());
    fibre.reasons().forEach(reason -> say("  " + reason));
    for (AssessedReading reading : fibre.readings()) {
      reading(fibre, reading);
    }
    fibre
        .doubts()
        .forEach(
            doubt -> {
              out.println();
              say("  " + doubt.kind().id() + ": " + doubt.line());
              doubt.evidence().forEach(e -> say("      " + e.name() + " = " + e.shown()));
            });
  }

  private void reading(FibreJudgement fibre, AssessedReading reading) {
    section(
        "  "
            + reading.caseShown()
            + ", "
            + reading.reading().measuredAt()
            + ", zero "
            + reading.reading().reference()
            + (reading.current() ? "" : " (replaced by a later reading)")
            + (fibre.blocked(reading) ? " (in doubt)" : ""));
    if (reading.hasLoss()) {
      say(
          "  loss "
              + Decibels.shown(reading.lossDb())
              + " dB, uncertainty "
              + Decibels.shown(reading.expandedDb())
              + " dB (k = 2), "
              + reading.decision().word());
    }
    reading.allowance().ifPresent(this::allowance);
    if (reading.hasLoss() && reading.budget().isPresent()) {
      budget(reading.budget().get(), fibre.link().lengthKm(), reading.lossDb());
    }
  }

  private void allowance(Allowance allowance) {
    if (allowance.limit().isPresent()) {
      say("  limit " + Decibels.shown(allowance.limitDb()) + " dB");
    } else {
      say("  no limit; the rulebook lacks " + String.join(", ", allowance.lacking()));
    }
    terms(allowance.limitTerms());
    if (!Double.isNaN(allowance.expectedDb())) {
      say(
          "  expected "
              + Decibels.shown(allowance.expectedDb())
              + " dB, spread "
              + Decibels.shown(allowance.expectedSdDb())
              + " dB");
      terms(allowance.expectedTerms());
    }
  }

  private void terms(LossSum sum) {
    for (Term term : sum.terms()) {
      say(
          String.format(
              Locale.ROOT,
              "      %s dB = %s %s x %s dB  %s; %s",
              Decibels.shown(term.loss().value()),
              number(term.count()),
              term.part().unit(),
              number(term.part().eachDb()),
              term.part().what(),
              term.part().source().line()));
    }
  }

  private void budget(Budget budget, double km, double lossDb) {
    say("  standard uncertainty, contribution by contribution:");
    for (Contribution c : budget.contributions()) {
      say(
          String.format(
              Locale.ROOT, "      %.4f dB  %s (%s)", c.product(km, lossDb), c.what(), c.origin()));
    }
  }

  private static String number(double value) {
    return value == Math.rint(value)
        ? Long.toString((long) value)
        : Double.toString(Math.round(value * 1e5) / 1e5);
  }
}
