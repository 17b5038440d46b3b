package ferrule.trial;

import ferrule.core.trust.Cause;
import ferrule.trial.CauseTrial.Call;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;

/** What the judge said of causes, as tables for a reader. */
final class CauseTables {

  private static final double[] BINS = {0, 0.3, 0.5, 0.7, 0.9, 1.0000001};

  private final PrintStream out;

  CauseTables(PrintStream out) {
    this.out = out;
  }

  void print(List<Call> all) {
    List<Call> calls = all.stream().filter(c -> c.told().isPresent()).toList();
    reliability("Failed without a doubt of its loss", all, c -> c.told().isEmpty());
    reliability("The likeliest cause", calls, c -> true);
    reliability("Single-mode", calls, c -> c.kind().word().equals("single-mode"));
    reliability("Multimode", calls, c -> c.kind().word().equals("multimode"));
    everyWeight(calls);
    told(calls);
    confusion(calls);
    for (Ailment ailment : Ailment.values()) {
      reliability(name(ailment), calls, c -> ailment.isMeantBy(c.posterior().get(0).cause()));
    }
  }

  static List<Call> between(List<Call> calls, double low, double high) {
    return calls.stream().filter(c -> c.sure() >= low && c.sure() < high).toList();
  }

  /** Per cent of the calls that were right. */
  static double right(List<Call> calls) {
    return 100.0 * calls.stream().filter(Call::right).count() / calls.size();
  }

  private void reliability(String title, List<Call> calls, Predicate<Call> which) {
    List<Call> some = calls.stream().filter(which).toList();
    out.println();
    out.println("| " + title + ", called | fibres | said on average | right |");
    out.println("| --- | --- | --- | --- |");
    for (int b = 0; b + 1 < BINS.length; b++) {
      List<Call> bin = between(some, BINS[b], BINS[b + 1]);
      double said = 100 * bin.stream().mapToDouble(Call::sure).average().orElse(Double.NaN);
      row(range(b), bin.size(), said, bin.isEmpty() ? Double.NaN : right(bin));
    }
  }

  /** Every cause of every fibre is a statement of its own. */
  private void everyWeight(List<Call> calls) {
    out.println();
    out.println("| Any cause, given | statements | said on average | right |");
    out.println("| --- | --- | --- | --- |");
    double[] edges = {0, 0.03, 0.1, 0.3, 0.5, 0.7, 0.9, 1.0000001};
    for (int b = 0; b + 1 < edges.length; b++) {
      int count = 0;
      int right = 0;
      double said = 0;
      for (Call call : calls) {
        for (Cause cause : call.posterior()) {
          if (cause.weight() >= edges[b] && cause.weight() < edges[b + 1]) {
            count++;
            said += cause.weight();
            right += call.truth().isMeantBy(cause.cause()) ? 1 : 0;
          }
        }
      }
      row(
          Math.round(100 * edges[b]) + " to " + Math.round(100 * edges[b + 1]) + " %",
          count,
          100 * said / count,
          100.0 * right / count);
    }
  }

  private void told(List<Call> calls) {
    List<Call> told = calls.stream().filter(c -> c.told().isPresent()).toList();
    int open = 0;
    double said = 0;
    int within = 0;
    int right = 0;
    for (Call call : told) {
      Cause first = call.told().orElseThrow().get(0);
      if (first.cause().startsWith("cannot be told")) {
        open++;
        said += first.weight();
        within += call.truth().isAmong(first.cause()) ? 1 : 0;
      } else {
        right += call.truth().isMeantBy(first.cause()) ? 1 : 0;
      }
    }
    int led = told.size() - open;
    out.println();
    out.println("| Doubts say | fibres | said on average | right |");
    out.println("| --- | --- | --- | --- |");
    row("one cause first", led, Double.NaN, 100.0 * right / led);
    row("cannot be told, between", open, 100 * said / open, 100.0 * within / open);
  }

  private void confusion(List<Call> calls) {
    out.println();
    out.println("Likeliest cause (across) of what it was (down), fibres:");
    out.println();
    StringBuilder head = new StringBuilder("| |");
    StringBuilder rule = new StringBuilder("| --- |");
    for (Ailment said : Ailment.values()) {
      head.append(' ').append(name(said)).append(" |");
      rule.append(" --- |");
    }
    out.println(head);
    out.println(rule);
    for (Ailment truth : Ailment.values()) {
      StringBuilder row = new StringBuilder("| " + name(truth) + " |");
      for (Ailment said : Ailment.values()) {
        long count =
            calls.stream()
                .filter(c -> c.truth() == truth && said.isMeantBy(c.posterior().get(0).cause()))
                .count();
        row.append(' ').append(count == 0 ? "" : Long.toString(count)).append(" |");
      }
      out.println(row);
    }
  }

  /** Fibres whose cause was called with some confidence, and wrongly. */
  void misses(List<Call> calls) {
    out.println();
    for (Call call : calls) {
      if (call.told().isPresent() && call.sure() > 0.7 && !call.right()) {
        String all =
            String.join(
                ", ",
                call.posterior().stream()
                    .limit(3)
                    .map(c -> percent(100 * c.weight()) + " " + c.cause())
                    .toList());
        out.println(
            String.format(
                Locale.ROOT,
                "seed %d %s %s was %s; %s; %s",
                call.seed(),
                call.kind().word(),
                call.fibre(),
                name(call.truth()),
                all,
                call.evidence()));
      }
    }
  }

  private static String name(Ailment ailment) {
    return ailment.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String range(int bin) {
    return Math.round(100 * BINS[bin]) + " to " + Math.round(100 * BINS[bin + 1]) + " %";
  }

  private void row(String name, int count, double said, double right) {
    out.println(
        "| " + name + " | " + count + " | " + percent(said) + " | " + percent(right) + " |");
  }

  private static String percent(double value) {
    return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.0f %%", value);
  }
}
