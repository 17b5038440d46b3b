package ferrule.trial;

import static java.lang.Double.NaN;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Sight;
import ferrule.trial.Planted.Named;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * What a judge said of one simulated job.
 *
 * @param seed makes the same job again
 * @param planted what was planted; empty on a clean job
 * @param size of what was planted, NaN without one
 * @param named whether a right kind and subject were named
 * @param reachEqual whether with exactly the planted reach
 * @param overlap shared fibres over all fibres of the planted and the named reach, 0 to 1
 * @param promised chance with which the job's own test of the planted kind and subject, worked out
 *     without knowing of it, would tell a trouble of this size; NaN if it has no such test
 * @param plainScore of the plain test, told where to look; NaN if there is none
 * @param wrongSubject whether the same kind was also said of a subject that is fine
 * @param doubts everything it said
 * @param plan the job in a few words
 * @param fibres scheduled
 */
record Outcome(
    long seed,
    Optional<Planted> planted,
    double size,
    boolean named,
    boolean reachEqual,
    double overlap,
    double promised,
    double plainScore,
    boolean wrongSubject,
    List<Doubt> doubts,
    String plan,
    int fibres) {

  static Outcome of(
      long seed,
      Optional<Planted> planted,
      double size,
      double plainScore,
      Judgement judgement,
      String plan,
      int fibres) {
    List<Doubt> doubts = judgement.doubts();
    if (planted.isEmpty()) {
      return new Outcome(
          seed, planted, size, false, false, 0, NaN, plainScore, false, doubts, plan, fibres);
    }
    List<Named> right = planted.get().right();
    Set<FibreId> union = new HashSet<>();
    boolean named = false;
    boolean equal = false;
    boolean wrong = false;
    for (Doubt doubt : doubts) {
      if (right.contains(new Named(doubt.kind(), doubt.subject()))) {
        named = true;
        Set<FibreId> own = new HashSet<>(doubt.reach().fibres());
        equal |= planted.get().reaches().contains(own);
        union.addAll(own);
      } else {
        wrong |= right.stream().anyMatch(r -> r.kind() == doubt.kind());
      }
    }
    equal |= named && planted.get().reaches().contains(union);
    double overlap = 0;
    for (Set<FibreId> reach : planted.get().reaches()) {
      overlap = Math.max(overlap, named ? overlap(reach, union) : 0);
    }
    double promised = promised(right, size, judgement.sights());
    return new Outcome(
        seed,
        planted,
        size,
        named,
        equal,
        overlap,
        promised,
        plainScore,
        wrong,
        doubts,
        plan,
        fibres);
  }

  /** The best of the right kinds and subjects that have a test of their own. */
  private static double promised(List<Named> right, double size, List<Sight> sights) {
    return sights.stream()
        .filter(s -> right.contains(new Named(s.kind(), s.subject())))
        .mapToDouble(s -> s.chanceOf(size))
        .max()
        .orElse(NaN);
  }

  private static double overlap(Set<FibreId> one, Set<FibreId> other) {
    if (one.isEmpty() && other.isEmpty()) {
      return 1;
    }
    Set<FibreId> shared = new HashSet<>(one);
    shared.retainAll(other);
    return shared.size() / (double) (one.size() + other.size() - shared.size());
  }

  boolean blocking() {
    return doubts.stream().anyMatch(Doubt::blocking);
  }

  /** Kinds said, each once. */
  Set<String> kinds() {
    Set<String> kinds = new java.util.TreeSet<>();
    doubts.forEach(d -> kinds.add(d.kind().id()));
    return kinds;
  }

  /** "level-step zero Z01 (12 fibres); outlier 3 fibres": fibres' doubts are counted. */
  String said() {
    Map<String, List<String>> byKind = new TreeMap<>();
    for (Doubt doubt : doubts) {
      byKind
          .computeIfAbsent(
              doubt.kind().id() + (doubt.blocking() ? "!" : ""), k -> new ArrayList<>())
          .add(doubt.subject().shown() + " (" + doubt.reach().fibres().size() + ")");
    }
    List<String> parts = new ArrayList<>();
    byKind.forEach(
        (kind, subjects) ->
            parts.add(
                subjects.size() <= 4
                    ? kind + " " + String.join(", ", subjects)
                    : kind
                        + " "
                        + String.join(", ", subjects.subList(0, 3))
                        + " and "
                        + (subjects.size() - 3)
                        + " more"));
    return parts.isEmpty() ? "nothing" : String.join("; ", parts);
  }
}
