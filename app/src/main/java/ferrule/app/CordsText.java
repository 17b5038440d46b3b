package ferrule.app;

import ferrule.core.isolation.Contrast;
import ferrule.core.isolation.EndFinding;
import ferrule.core.isolation.EndId;
import ferrule.core.isolation.EndLimit;
import ferrule.core.isolation.EndState;
import ferrule.core.isolation.Estimate;
import ferrule.core.isolation.Fit;
import ferrule.core.isolation.Isolation;
import ferrule.core.isolation.MatedPath;
import ferrule.core.isolation.Mating;
import ferrule.core.isolation.NextMeasurement;
import ferrule.core.isolation.SpecialPair;
import ferrule.core.isolation.Spread;
import ferrule.core.isolation.ToldSum;
import ferrule.core.optics.Decibels;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Cord isolation in words, for a terminal or a pipe. */
public final class CordsText {

  private static final String CAUTION =
      "Caution: the light used for testing is invisible; never look into a fibre or a plug. Make"
          + " sure the fibre is dark before you clean, inspect or mate it; broken glass cuts. Local"
          + " codes, the network owner and licensed practice decide what may be done.";

  private final Terminal terminal;
  private final PrintWriter out;

  private CordsText(Terminal terminal) {
    this.terminal = terminal;
    this.out = terminal.out();
  }

  /**
   * Prints what was found.
   *
   * @param input the table as the user named it
   * @param found one result a wavelength
   */
  public static void print(Terminal terminal, String input, List<Isolation> found) {
    CordsText text = new CordsText(terminal);
    for (Isolation isolation : found) {
      text.print(input, isolation);
      text.out.println();
    }
    if (found.stream().anyMatch(CordsText::asksForHands)) {
      text.say(CAUTION);
    }
  }

  private static boolean asksForHands(Isolation isolation) {
    return isolation.next().isPresent() || isolation.count(EndState.BAD) > 0;
  }

  private void say(String line) {
    Lines.say(out, line);
  }

  private void print(String input, Isolation isolation) {
    say(
        terminal.strong(
            input
                + isolation.wavelength().map(w -> ", " + w).orElse(", no wavelength")
                + ": "
                + count(isolation.readings().size(), "reading")
                + " of "
                + count(isolation.ends().size(), "cord end")));
    limit(isolation.limit());
    spread(isolation);
    out.println();
    int width =
        isolation.ends().stream().mapToInt(e -> e.end().toString().length()).max().orElse(0);
    isolation.ends().forEach(end -> end(end, isolation.limit(), width));
    toldTogether(isolation);
    special(isolation);
    next(isolation);
  }

  private void limit(EndLimit limit) {
    say(
        "  one end may lose "
            + Decibels.shown(limit.db())
            + " dB: half of "
            + Decibels.shown(limit.pair().value())
            + " dB, the most of two reference-grade ends mated; "
            + limit.kind().word()
            + switch (limit.origin()) {
              case STATED, WAVELENGTH -> "";
              case ASSUMED -> ", assumed (give wavelength_nm or --kind)";
            }
            + "; "
            + limit.pair().provenance().line());
  }

  private void spread(Isolation isolation) {
    Spread spread = isolation.spread();
    say(
        "  a reading scatters by "
            + thousandths(spread.readingDb())
            + " dB: "
            + switch (spread.basis()) {
              case RESIDUALS ->
                  "from the residuals, "
                      + (long) spread.degrees()
                      + (spread.degrees() == 1 ? " degree of freedom" : " degrees of freedom");
              case STATED -> "as stated";
              case ASSUMED -> "assumed, 0.02 dB a mating where sd_db is empty";
            });
    if (isolation.fit().isPresent()) {
      Fit fit = isolation.fit().get();
      say(
          String.format(
              Locale.ROOT,
              "  residual chi-square %.2f, critical %.2f (5 %%, %d): %s",
              fit.chiSquare(),
              fit.critical(),
              fit.degrees(),
              fit.holds()
                  ? "sums of end losses explain the readings"
                  : "sums of end losses do not explain the readings"));
    } else {
      say("  no reading is left over to check that readings are sums of end losses");
    }
  }

  private void end(EndFinding end, EndLimit limit, int width) {
    StringBuilder line = new StringBuilder("  ");
    line.append(end.end()).append(" ".repeat(width - end.end().toString().length() + 2));
    line.append(end.state().word());
    if (end.loss().isPresent()) {
      line.append(": ").append(shown(end.loss().get()));
      if (end.over().isPresent()) {
        line.append("; over ")
            .append(Decibels.shown(limit.db()))
            .append(" dB with probability ")
            .append(percent(end.over().getAsDouble()));
      }
    } else if (end.contrast().isPresent()) {
      line.append(end.state() == EndState.BAD ? ": " : " alone: ")
          .append(shown(end.contrast().get(), end.state(), limit));
    }
    say(line.append("; in ").append(count(end.readings(), "reading")).toString());
  }

  private static String shown(Contrast contrast, EndState state, EndLimit limit) {
    Estimate difference = contrast.difference();
    return Decibels.shown(Math.abs(difference.db()))
        + " dB "
        + (difference.db() < 0 ? "less" : "more")
        + " than "
        + (contrast.fellows().size() == 1 ? "" : "the mean of ")
        + listed(contrast.fellows())
        + String.format(Locale.ROOT, " (sd %.3f, t = %.1f)", difference.sdDb(), contrast.t())
        + (contrast.standsOut() ? ", stands out" : "")
        + (state == EndState.BAD
            ? "; over "
                + Decibels.shown(limit.db())
                + " dB even if they lose nothing, with probability "
                + percent(contrast.over(limit.db()))
            : "");
  }

  private void toldTogether(Isolation isolation) {
    if (isolation.groups().isEmpty() && isolation.sums().isEmpty()) {
      return;
    }
    section("What can be told of ends that cannot be told alone");
    isolation
        .groups()
        .forEach(group -> say("  differences inside {" + listed(group) + "}, as above"));
    for (ToldSum sum : isolation.sums()) {
      say("  " + inWords(sum, isolation.groups()) + ": " + shown(sum.value()));
    }
  }

  private static String inWords(ToldSum sum, List<List<EndId>> groups) {
    Map<EndId, Double> factors = new LinkedHashMap<>();
    sum.terms().forEach(term -> factors.put(term.end(), term.factor()));
    List<String> added = new ArrayList<>();
    for (List<EndId> group : groups) {
      double share = 1.0 / group.size();
      if (group.stream().allMatch(end -> near(factors.getOrDefault(end, 0.0), share))) {
        added.add("the mean of {" + listed(group) + "}");
        group.forEach(factors::remove);
      }
    }
    List<String> taken = new ArrayList<>();
    factors.forEach(
        (end, factor) -> {
          double size = Math.abs(factor);
          String times = near(size, 1) ? "" : Decibels.shown(size) + " times ";
          (factor < 0 ? taken : added).add(times + end);
        });
    return "only the sum of " + joined(added) + (taken.isEmpty() ? "" : ", less " + joined(taken));
  }

  private static boolean near(double one, double other) {
    return Math.abs(one - other) < 1e-9;
  }

  private static String joined(List<String> parts) {
    int last = parts.size() - 1;
    return last < 1
        ? String.join("", parts)
        : String.join(", ", parts.subList(0, last)) + " and " + parts.get(last);
  }

  private void special(Isolation isolation) {
    if (isolation.fitHolds()) {
      return;
    }
    List<SpecialPair> pairs = isolation.specialPairs();
    section(
        switch (pairs.size()) {
          case 0 -> "No single pair explains what is left over";
          case 1 -> "One pair behaves specially";
          default -> "One pair behaves specially; these explain it equally well";
        });
    for (SpecialPair pair : pairs) {
      say(
          "  "
              + pair.pair()
              + " loses "
              + Decibels.shown(Math.abs(pair.extra().db()))
              + " dB "
              + (pair.extra().db() < 0 ? "less" : "more")
              + " than its ends do with others (sd "
              + thousandths(pair.extra().sdDb())
              + ")");
    }
    say("  likely: dirt moved during the tests; less so: a loose adapter; cores that lie aslant");
  }

  private void next(Isolation isolation) {
    section("What to do next");
    for (EndFinding end : isolation.ends()) {
      if (end.state() == EndState.BAD) {
        say(
            "  Clean and inspect "
                + end.end()
                + ", read its pairs again in a table of their own; still bad: take cord "
                + end.end().cord()
                + " out of use");
      }
    }
    if (isolation.next().isEmpty()) {
      say(
          isolation.fitHolds()
              ? "  Nothing more needs to be measured: every end is told"
              : "  No further pair would tell more: clean all ends and read all pairs again");
      if (isolation.count(EndState.UNDECIDED) > 0) {
        say("  Ends still undecided lie at the limit itself; treat them as worn");
      }
      return;
    }
    next(isolation, isolation.next().get());
  }

  private void next(Isolation isolation, NextMeasurement next) {
    say(
        "  "
            + (next.why() == NextMeasurement.Why.REPEAT
                ? "Clean and inspect both ends, then mate and read again "
                : "Mate and read ")
            + inWords(next.path())
            + (next.furtherCord() ? ", " + further(isolation, next) + " being a further cord" : "")
            + (next.newZero()
                ? "; first set a one-cord zero with "
                    + next.path().launch().cord()
                    + " as launch cord"
                : ""));
    switch (next.why()) {
      case TELL -> {
        say(
            next.tells().isEmpty()
                ? "     no end can be told by it alone, it is a step towards that"
                : "     then " + listed(next.tells()) + " can be told" + worst(next));
        if (!next.then().isEmpty()) {
          say(
              "     after it: "
                  + String.join("; then ", next.then().stream().map(CordsText::inWords).toList()));
        }
      }
      case DECIDE -> say("     brings " + worst(next).substring(2));
      case REPEAT -> say("     as before: the pair is special; otherwise it was dirt or handling");
    }
  }

  private static String further(Isolation isolation, NextMeasurement next) {
    Set<String> known =
        isolation.ends().stream().map(end -> end.end().cord()).collect(Collectors.toSet());
    return next.path().ends().stream()
        .map(EndId::cord)
        .filter(cord -> !known.contains(cord))
        .findFirst()
        .orElseThrow();
  }

  private static String worst(NextMeasurement next) {
    return next.worst().isEmpty() || next.sdThen().isEmpty()
        ? ""
        : ", sd of "
            + next.worst().get()
            + (next.sdNow().isPresent() ? " from " + thousandths(next.sdNow().getAsDouble()) : "")
            + " to "
            + thousandths(next.sdThen().getAsDouble())
            + " dB";
  }

  private static String inWords(MatedPath path) {
    List<String> parts = new ArrayList<>();
    for (Mating mating : path.matings()) {
      parts.add(mating.first() + " with " + mating.second());
    }
    return String.join(" and ", parts) + (parts.size() > 1 ? " (one path)" : "");
  }

  private void section(String title) {
    out.println();
    say(terminal.strong(title));
  }

  private static String listed(Collection<EndId> ends) {
    return String.join(", ", ends.stream().map(EndId::toString).toList());
  }

  private static String count(int number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  private static String shown(Estimate estimate) {
    return Decibels.shown(estimate.db()) + " dB, sd " + thousandths(estimate.sdDb());
  }

  private static String thousandths(double db) {
    return String.format(Locale.ROOT, "%.3f", db);
  }

  private static String percent(double probability) {
    if (probability > 0.999) {
      return "over 99.9 %";
    }
    return probability < 0.001
        ? "under 0.1 %"
        : String.format(Locale.ROOT, "%.1f %%", 100 * probability);
  }
}
