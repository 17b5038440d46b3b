package ferrule.trial;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** The command line: see {@code trial/run}. */
public final class Main {

  private static final int USUAL_JOBS = 200;

  private final List<String> kinds = new ArrayList<>();
  private int jobs = USUAL_JOBS;
  private long seed = 1;
  private boolean misses;
  private boolean sizes;
  private long only;
  private boolean onlyOne;
  private boolean causes;

  private Main() {}

  /** Runs the trials asked for and prints tables. */
  public static void main(String[] arguments) {
    Main main = new Main();
    main.read(arguments);
    main.run(new PrintStream(System.out, true, StandardCharsets.UTF_8));
  }

  private void read(String[] arguments) {
    for (int i = 0; i < arguments.length; i++) {
      switch (arguments[i]) {
        case "--jobs" -> jobs = Integer.parseInt(arguments[++i]);
        case "--seed" -> seed = Long.parseLong(arguments[++i]);
        case "--misses" -> misses = true;
        case "--sizes" -> sizes = true;
        case "--only" -> {
          only = Long.parseLong(arguments[++i]);
          onlyOne = true;
        }
        case "causes" -> causes = true;
        default -> {
          if (!arguments[i].equals(Trial.CLEAN) && !Troubles.kinds().contains(arguments[i])) {
            throw new IllegalArgumentException(
                arguments[i] + " is none of " + Trial.CLEAN + ", " + Troubles.kinds());
          }
          kinds.add(arguments[i]);
        }
      }
    }
    if (kinds.isEmpty() && !causes) {
      kinds.add(Trial.CLEAN);
      kinds.addAll(Troubles.kinds());
      sizes = true;
    }
  }

  private void run(PrintStream out) {
    if (causes) {
      List<CauseTrial.Call> calls = CauseTrial.run(jobs, seed);
      CauseTables of = new CauseTables(out);
      of.print(calls);
      if (misses) {
        of.misses(calls);
      }
      return;
    }
    Tables tables = new Tables(out);
    if (onlyOne) {
      String kind = kinds.get(0);
      Trial.one(kind, only, OptionalDouble.empty())
          .ifPresent(
              o -> {
                tables.job(kind, o);
                tables.evidence(o);
              });
      return;
    }
    if (kinds.contains(Trial.CLEAN)) {
      List<Outcome> outcomes = Trial.run(Trial.CLEAN, jobs, seed, OptionalDouble.empty());
      tables.clean(outcomes);
      if (misses) {
        outcomes.stream()
            .filter(o -> !o.doubts().isEmpty())
            .forEach(o -> tables.job(Trial.CLEAN, o));
      }
    }
    List<String> troubles = kinds.stream().filter(k -> !k.equals(Trial.CLEAN)).toList();
    if (!troubles.isEmpty()) {
      tables.foundHead();
    }
    List<Runnable> missed = new ArrayList<>();
    List<Runnable> promises = new ArrayList<>();
    List<Runnable> plain = new ArrayList<>();
    for (String kind : troubles) {
      List<Outcome> outcomes = Trial.run(kind, jobs, seed, OptionalDouble.empty());
      tables.found(kind, outcomes);
      if (outcomes.stream().anyMatch(o -> !Double.isNaN(o.promised()))) {
        promises.add(() -> tables.promised(kind, outcomes));
      }
      if (outcomes.stream().anyMatch(o -> !Double.isNaN(o.plainScore()))) {
        plain.add(
            () -> tables.plain(kind, outcomes, Trial.run(kind, jobs, seed, OptionalDouble.of(0))));
      }
      outcomes.stream().filter(o -> !o.named()).forEach(o -> missed.add(() -> tables.job(kind, o)));
    }
    if (!promises.isEmpty()) {
      tables.promisedHead();
      promises.forEach(Runnable::run);
    }
    if (!plain.isEmpty()) {
      tables.plainHead();
      plain.forEach(Runnable::run);
    }
    if (misses) {
      missed.forEach(Runnable::run);
    }
    if (sizes) {
      sizes(tables, troubles);
    }
  }

  private void sizes(Tables tables, List<String> troubles) {
    List<String> swept = troubles.stream().filter(Troubles.SWEEPS::containsKey).toList();
    if (!swept.isEmpty()) {
      tables.sizeHead();
    }
    for (String kind : swept) {
      for (double size : Troubles.SWEEPS.getOrDefault(kind, List.of())) {
        tables.sizeRow(kind, size, Trial.run(kind, jobs, seed, OptionalDouble.of(size)));
      }
    }
  }
}
