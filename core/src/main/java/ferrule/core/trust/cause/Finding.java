package ferrule.core.trust.cause;

import ferrule.core.trust.Cause;
import ferrule.core.trust.Evidence;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How probable each cause is for one fibre, and what is told of it.
 *
 * <p>A cause leads if it is at least as probable as all others together and at least twice as
 * probable as the next. Otherwise the first entry is "cannot be told", with the causes between
 * which it lies, and their probability together as its weight.
 */
final class Finding {

  private static final double LEADS = 0.5;
  private static final double LEADS_NEXT = 2;

  /** The causes named under "cannot be told" are together at least this probable, or four. */
  private static final double ENOUGH = 0.8;

  private static final int MOST_NAMED = 4;
  private static final double LEAST_SHOWN = 0.01;
  private static final String CANNOT = "cannot be told";

  private record Weighed(LossCause cause, double weight) {}

  private final List<Weighed> weighed = new ArrayList<>();
  private final List<Evidence> evidence;

  private Finding(Map<LossCause, Double> weights, List<Evidence> evidence) {
    weights.forEach((cause, weight) -> weighed.add(new Weighed(cause, weight)));
    weighed.sort(Comparator.comparingDouble((Weighed w) -> -w.weight()));
    this.evidence = List.copyOf(evidence);
  }

  /** Of readings that nothing can be computed from. */
  static Finding nothing() {
    return new Finding(Map.of(), List.of());
  }

  /**
   * From unnormalised logarithms.
   *
   * @param evidence what it rests on
   */
  static Finding of(Map<LossCause, Double> logWeights, List<Evidence> evidence) {
    double most = Double.NEGATIVE_INFINITY;
    for (double log : logWeights.values()) {
      most = Math.max(most, log);
    }
    if (!Double.isFinite(most)) {
      return nothing();
    }
    double sum = 0;
    for (double log : logWeights.values()) {
      sum += Math.exp(log - most);
    }
    Map<LossCause, Double> weights = new EnumMap<>(LossCause.class);
    for (Map.Entry<LossCause, Double> entry : logWeights.entrySet()) {
      weights.put(entry.getKey(), Math.exp(entry.getValue() - most) / sum);
    }
    return new Finding(weights, evidence);
  }

  /** The cause that leads; empty if none does. */
  Optional<LossCause> leader() {
    if (weighed.isEmpty() || weighed.get(0).cause() == LossCause.UNLIKE) {
      return Optional.empty();
    }
    Weighed first = weighed.get(0);
    double second = weighed.size() > 1 ? weighed.get(1).weight() : 0;
    return first.weight() >= LEADS && first.weight() >= LEADS_NEXT * second
        ? Optional.of(first.cause())
        : Optional.empty();
  }

  /** How probable each cause is, likeliest first; their weights add up to 1. Empty if unknown. */
  List<Cause> posterior() {
    return weighed.stream().map(w -> new Cause(w.cause().words(), w.weight())).toList();
  }

  /** What is told: causes, or first what cannot be told; weights fall and add up to 1. */
  List<Cause> told() {
    if (weighed.isEmpty()) {
      return List.of(new Cause(CANNOT + ": too few readings can be used", 1));
    }
    List<Cause> told = new ArrayList<>();
    int from = 0;
    if (leader().isEmpty()) {
      from = between();
      double together = 0;
      List<String> names = new ArrayList<>();
      for (Weighed one : weighed.subList(0, from)) {
        together += one.weight();
        names.add(one.cause().words());
      }
      told.add(new Cause(CANNOT + ": " + String.join("; or ", names), together));
    }
    double left = 1;
    for (Cause cause : told) {
      left -= cause.weight();
    }
    for (Weighed one : weighed.subList(from, weighed.size())) {
      if (one.weight() >= LEAST_SHOWN) {
        told.add(new Cause(one.cause().words(), one.weight()));
        left -= one.weight();
      }
    }
    if (left > 1e-9) {
      told.add(new Cause("anything else", left));
    }
    told.sort(Comparator.comparingDouble((Cause c) -> -c.weight()));
    double sum = told.stream().mapToDouble(Cause::weight).sum();
    return told.stream().map(c -> new Cause(c.cause(), c.weight() / sum)).toList();
  }

  /** How many causes "cannot be told" names. */
  private int between() {
    int count = 0;
    double together = 0;
    while (count < weighed.size() && count < MOST_NAMED && together < ENOUGH) {
      together += weighed.get(count++).weight();
    }
    return count;
  }

  /** The numbers it rests on; where no cause leads, also how probable each of them is. */
  List<Evidence> evidence() {
    List<Evidence> all = new ArrayList<>(evidence);
    if (leader().isEmpty() && !weighed.isEmpty()) {
      all.add(
          Evidence.of(
              "fits",
              String.join(
                  "; ",
                  weighed.subList(0, between()).stream()
                      .map(w -> w.cause().words() + " " + Math.round(100 * w.weight()) + " %")
                      .toList())));
    }
    return all;
  }
}
