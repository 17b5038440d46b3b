package ferrule.core.trust.joint;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.paper.Replacements;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.IntPredicate;

/**
 * Readings that a crew could take to tell two effects apart: of fibres that both touch, that one
 * touches, or that neither does, spread over the schedule; in the cases they were read in, and the
 * other direction of these; under a new zero, under a zero that still stands, and under the zero in
 * question if it still stands and the effect does not hang on the time.
 */
final class Candidates {

  /** No more than this for one pair of effects. */
  static final int MOST = 200;

  private static final int OF_BOTH = 6;
  private static final int OF_ONE = 4;
  private static final int OF_NEITHER = 2;
  private static final int MOST_CASES = 4;
  private static final int MOST_STANDING = 2;

  /** A fibre whose own part lies this many of its spreads out serves no comparison. */
  private static final double ODD = 2.5;

  private final JointFit fit;
  private final Frame frame;
  private final boolean[] standing;

  Candidates(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
    this.standing = standing();
  }

  /** Zeros none of whose levels had come to its end when the job's last reading was taken. */
  private boolean[] standing() {
    Instant last = Instant.MIN;
    for (AssessedReading reading : frame.reading) {
      Instant at = reading.reading().measuredAt();
      last = at.isAfter(last) ? at : last;
    }
    Instant now = last;
    Replacements replacements = new Replacements(frame.ledger);
    boolean[] stands = new boolean[frame.zeros.size()];
    for (int z = 0; z < stands.length; z++) {
      stands[z] =
          frame.zeros.get(z).levels().stream()
              .allMatch(l -> !l.setAt().isAfter(now) && replacements.endOf(l).isAfter(now));
    }
    return stands;
  }

  /** The latest zeros that still stand, but for those that either effect or a finding is about. */
  private List<Integer> others(Effect one, Effect two) {
    Set<Integer> asked = new LinkedHashSet<>();
    asked.add(JointEstimate.zeroOf(one));
    asked.add(JointEstimate.zeroOf(two));
    fit.effects.forEach(e -> asked.add(JointEstimate.zeroOf(e)));
    List<Integer> found = new ArrayList<>();
    for (int z = 0; z < standing.length; z++) {
      if (standing[z] && !asked.contains(z)) {
        found.add(z);
      }
    }
    found.sort(
        Comparator.comparing((Integer z) -> frame.zeros.get(z).setAt())
            .reversed()
            .thenComparing(z -> z));
    return found.subList(0, Math.min(MOST_STANDING, found.size()));
  }

  /** Readings that could be taken. */
  List<Extra> of(Effect one, Effect two) {
    List<Integer> zeros = new ArrayList<>();
    zeros.add(-1);
    zeros.addAll(others(one, two));
    List<Extra> all = new ArrayList<>();
    List<Integer> fibres = new ArrayList<>(some(i -> touches(one, i) && touches(two, i), OF_BOTH));
    fibres.addAll(some(i -> touches(one, i) && !touches(two, i), OF_ONE));
    fibres.addAll(some(i -> !touches(one, i) && touches(two, i), OF_ONE));
    for (int fibre : fibres) {
      for (int zero : zeros) {
        addCases(all, fibre, zero);
      }
    }
    for (Effect effect : List.of(one, two)) {
      if (effect instanceof Effect.Shift shift && standing[shift.zero()]) {
        fibres = some(i -> !touches(one, i) && !touches(two, i), OF_NEITHER);
        fibres.addAll(some(i -> !touches(effect, i) && touches(one, i) != touches(two, i), OF_ONE));
        for (int fibre : fibres) {
          addCases(all, fibre, shift.zero());
        }
      }
    }
    return all.subList(0, Math.min(MOST, all.size()));
  }

  private boolean touches(Effect effect, int fibre) {
    for (int r = frame.start[fibre]; r < frame.start[fibre + 1]; r++) {
      if (effect.at(frame, fibre, r) != 0) {
        return true;
      }
    }
    return false;
  }

  /** A few fibres of a sort, evenly over the schedule; fibres far from their like left out. */
  private List<Integer> some(IntPredicate which, int most) {
    List<Integer> all = new ArrayList<>();
    for (int i = 0; i < frame.fibres(); i++) {
      if (which.test(i) && !isOdd(i)) {
        all.add(i);
      }
    }
    List<Integer> few = new ArrayList<>();
    int n = Math.min(most, all.size());
    for (int k = 0; k < n; k++) {
      few.add(all.get((int) ((k + 0.5) * all.size() / n)));
    }
    return few;
  }

  private boolean isOdd(int fibre) {
    double sd = fit.scatter.partSdDb(frame.families.get(frame.family[fibre]));
    return Math.abs(fit.ownPart(fibre)) > ODD * sd * frame.scale[fibre];
  }

  private void addCases(List<Extra> all, int fibre, int zero) {
    int begin = frame.start[fibre];
    int end = Math.min(frame.start[fibre + 1], begin + MOST_CASES);
    for (int r = begin; r < end; r++) {
      boolean forward = frame.levels.get(frame.levelOf[r]).forward();
      add(all, fibre, r, forward, zero);
      boolean bothWays = false;
      for (int s = begin; s < frame.start[fibre + 1]; s++) {
        bothWays |=
            frame.reading[s].nm() == frame.reading[r].nm()
                && frame.levels.get(frame.levelOf[s]).forward() != forward;
      }
      if (!bothWays) {
        add(all, fibre, r, !forward, zero);
      }
    }
  }

  private void add(List<Extra> all, int fibre, int twin, boolean forward, int zero) {
    if (zero < 0) {
      all.add(new Extra(fibre, twin, forward, -1, Double.POSITIVE_INFINITY));
      return;
    }
    if (frame.zeroOf(twin) == zero
        || frame.zeros.get(zero).method() != frame.zeros.get(frame.zeroOf(twin)).method()) {
      return;
    }
    for (int level : frame.levelsOfZero[zero]) {
      Frame.Level own = frame.levels.get(level);
      if (own.forward() == forward && own.nm() == frame.reading[twin].nm()) {
        all.add(new Extra(fibre, twin, forward, level, Double.POSITIVE_INFINITY));
      }
    }
  }
}
