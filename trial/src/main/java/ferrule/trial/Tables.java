package ferrule.trial;

import ferrule.core.trust.Doubt;
import ferrule.core.trust.Sight;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;

/** Outcomes as tables in Markdown, plain enough to read in a terminal. */
final class Tables {

  /** Share of honest jobs on which a test may ring. */
  private static final double ALARM = 0.005;

  private final PrintStream out;

  Tables(PrintStream out) {
    this.out = out;
  }

  void foundHead() {
    out.println();
    out.println(
        "| trouble | variant | jobs | named | reach equal | overlap | also of a wrong subject |");
    out.println("| --- | --- | --- | --- | --- | --- | --- |");
  }

  /** One row for all, and one for each variant if there are several. */
  void found(String kind, List<Outcome> outcomes) {
    Map<String, List<Outcome>> variants = new TreeMap<>();
    for (Outcome outcome : outcomes) {
      Planted planted = outcome.planted().orElseThrow();
      variants
          .computeIfAbsent(
              planted.variant() + (planted.confounded() ? ", confounded" : ""),
              k -> new ArrayList<>())
          .add(outcome);
    }
    List<Outcome> told =
        outcomes.stream().filter(o -> !o.planted().orElseThrow().confounded()).toList();
    foundRow(kind, told.size() < outcomes.size() ? "all but confounded" : "all", told);
    if (variants.size() > 1) {
      variants.forEach((variant, own) -> foundRow(kind, variant, own));
    }
  }

  private void foundRow(String kind, String variant, List<Outcome> outcomes) {
    out.println(
        String.format(
            Locale.ROOT,
            "| %s | %s | %d | %s | %s | %.2f | %s |",
            kind,
            variant,
            outcomes.size(),
            share(outcomes, Outcome::named),
            share(outcomes, Outcome::reachEqual),
            outcomes.stream().mapToDouble(Outcome::overlap).average().orElse(0),
            share(outcomes, Outcome::wrongSubject)));
  }

  void promisedHead() {
    out.println();
    out.println("| trouble | promised | jobs | named | reach equal | promised on average |");
    out.println("| --- | --- | --- | --- | --- | --- |");
  }

  /** Of jobs whose own test would tell the planted size with such a chance: how many told it. */
  void promised(String kind, List<Outcome> outcomes) {
    double[] bounds = {0, 0.5, 0.9, Sight.SURE, 0.999, 1.1};
    for (int i = bounds.length - 2; i >= 0; i--) {
      double low = bounds[i];
      double high = bounds[i + 1];
      List<Outcome> own =
          outcomes.stream().filter(o -> o.promised() >= low && o.promised() < high).toList();
      if (!own.isEmpty()) {
        out.println(
            String.format(
                Locale.ROOT,
                "| %s | %.1f to %.1f %% | %d | %s | %s | %.1f %% |",
                kind,
                100 * low,
                100 * Math.min(1, high),
                own.size(),
                share(own, Outcome::named),
                share(own, Outcome::reachEqual),
                100 * own.stream().mapToDouble(Outcome::promised).average().orElse(0)));
      }
    }
  }

  void plainHead() {
    out.println();
    out.println(
        "| trouble | jobs | named | named on nothing | plain test, told where | plain test on"
            + " nothing |");
    out.println("| --- | --- | --- | --- | --- | --- |");
  }

  /**
   * Beside the plain test, which is told where to look and when, and set so that it rings on one
   * job in 200 without trouble.
   *
   * @param nothing the same jobs with a trouble of no size
   */
  void plain(String kind, List<Outcome> outcomes, List<Outcome> nothing) {
    List<Outcome> clear =
        outcomes.stream().filter(o -> !o.planted().orElseThrow().confounded()).toList();
    double[] honest = nothing.stream().mapToDouble(Outcome::plainScore).sorted().toArray();
    double bound = honest[(int) Math.ceil((1 - ALARM) * honest.length) - 1];
    out.println(
        "| "
            + kind
            + " | "
            + clear.size()
            + " | "
            + share(clear, Outcome::named)
            + " | "
            + share(nothing, Outcome::named)
            + " | "
            + share(clear, o -> o.plainScore() > bound)
            + " | "
            + share(nothing, o -> o.plainScore() > bound)
            + " |");
  }

  void sizeHead() {
    out.println();
    out.println("| trouble | size, dB | jobs | named | reach equal | overlap |");
    out.println("| --- | --- | --- | --- | --- | --- |");
  }

  /** Plans that can tell the trouble from another. */
  void sizeRow(String kind, double size, List<Outcome> outcomes) {
    List<Outcome> clear =
        outcomes.stream().filter(o -> !o.planted().orElseThrow().confounded()).toList();
    out.println(
        String.format(
            Locale.ROOT,
            "| %s | %.2f | %d | %s | %s | %.2f |",
            kind,
            size,
            clear.size(),
            share(clear, Outcome::named),
            share(clear, Outcome::reachEqual),
            clear.stream().mapToDouble(Outcome::overlap).average().orElse(0)));
  }

  /** What rings on clean jobs, by size of job and by kind. */
  void clean(List<Outcome> outcomes) {
    out.println();
    out.println("| clean jobs | jobs | any blocking doubt | any doubt |");
    out.println("| --- | --- | --- | --- |");
    int[] bounds = {0, 100, 200, 300, Integer.MAX_VALUE};
    for (int i = 0; i + 1 < bounds.length; i++) {
      int low = bounds[i];
      int high = bounds[i + 1];
      cleanRow(
          high == Integer.MAX_VALUE
              ? "more than " + low + " fibres"
              : (low + 1) + " to " + high + " fibres",
          outcomes.stream().filter(o -> o.fibres() > low && o.fibres() <= high).toList());
    }
    cleanRow("all", outcomes);
    Map<String, Integer> rings = new TreeMap<>();
    Map<String, Integer> blocking = new TreeMap<>();
    for (Outcome outcome : outcomes) {
      outcome.kinds().forEach(k -> rings.merge(k, 1, Integer::sum));
      outcome.doubts().stream()
          .filter(Doubt::blocking)
          .map(d -> d.kind().id())
          .distinct()
          .forEach(k -> blocking.merge(k, 1, Integer::sum));
    }
    if (!rings.isEmpty()) {
      out.println();
      out.println("| rings on clean jobs | share of jobs | blocking |");
      out.println("| --- | --- | --- |");
      rings.forEach(
          (kind, count) ->
              out.println(
                  "| "
                      + kind
                      + " | "
                      + percent(count, outcomes.size())
                      + " | "
                      + percent(blocking.getOrDefault(kind, 0), outcomes.size())
                      + " |"));
    }
  }

  private void cleanRow(String name, List<Outcome> outcomes) {
    out.println(
        "| "
            + name
            + " | "
            + outcomes.size()
            + " | "
            + share(outcomes, Outcome::blocking)
            + " | "
            + share(outcomes, o -> !o.doubts().isEmpty())
            + " |");
  }

  /** One job: how to make it again, what was planted, what was said. */
  void job(String kind, Outcome outcome) {
    out.println();
    out.println("seed " + outcome.seed() + " (" + kind + "): " + outcome.plan());
    outcome
        .planted()
        .ifPresent(
            p ->
                out.println(
                    String.format(
                        Locale.ROOT,
                        "  planted: %s%s, size %.3f, %s, reach %s, promised %.2f",
                        p.variant(),
                        p.confounded() ? ", confounded" : "",
                        outcome.size(),
                        p.detail().isEmpty() ? p.right() : p.detail(),
                        p.reaches().stream().map(r -> Integer.toString(r.size())).toList(),
                        outcome.promised())));
    out.println("  said:    " + outcome.said());
  }

  /** Every doubt with its evidence. */
  void evidence(Outcome outcome) {
    for (Doubt doubt : outcome.doubts()) {
      out.println("  " + doubt.line());
      out.println(
          "      "
              + String.join(
                  ", ", doubt.evidence().stream().map(e -> e.name() + " " + e.shown()).toList()));
    }
  }

  private static String share(List<Outcome> outcomes, Predicate<Outcome> test) {
    return percent((int) outcomes.stream().filter(test).count(), outcomes.size());
  }

  private static String percent(int count, int of) {
    return of == 0 ? "-" : String.format(Locale.ROOT, "%.1f %%", 100.0 * count / of);
  }
}
