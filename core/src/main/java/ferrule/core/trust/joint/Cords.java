package ferrule.core.trust.joint;

import ferrule.core.trust.CordShift;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The shift of every cord: what the levels that it stood in have in common.
 *
 * <p>A shift of all its levels by one amount is set free beside all estimated parts, as for a zero:
 * size {@code e'P theta / i}, variance {@code 1/i}, {@code i = e'(P - PCP)e}, {@code e} its levels,
 * {@code P} the prior precision of honest zeros, {@code C} the posterior covariance; so the zeros
 * are weighed with all their covariances. A zero whose own shift has been taken in as a trouble
 * enters apart, by its estimated size and variance.
 */
final class Cords {

  private final JointFit fit;
  private final Frame frame;
  private final Map<Integer, List<Effect>> confounded;
  private final BitSet read = new BitSet();

  /** Levels, zeros and roles of one cord. */
  private static final class Use {
    final BitSet levels = new BitSet();
    final Set<Integer> zeros = new LinkedHashSet<>();
    final Set<String> roles = new LinkedHashSet<>();
  }

  private Cords(JointFit fit, Map<Integer, List<Effect>> confounded) {
    this.fit = fit;
    this.frame = fit.frame;
    this.confounded = confounded;
    for (int level : frame.levelOf) {
      read.set(level);
    }
  }

  /** Every cord that a level with readings names, in the order of the zeros. */
  static List<CordShift> of(JointFit fit, Map<Integer, List<Effect>> confounded) {
    Cords cords = new Cords(fit, confounded);
    Map<String, Use> uses = cords.uses();
    List<CordShift> shifts = new ArrayList<>();
    uses.forEach((cord, use) -> shifts.add(cords.shift(cord, use, uses)));
    return shifts;
  }

  private Map<String, Use> uses() {
    Map<String, Use> uses = new LinkedHashMap<>();
    for (Frame.Level level : frame.levels) {
      if (read.get(level.index())) {
        ZeroLevel of = level.level();
        use(uses, of.launchCord(), "launch", level);
        use(uses, of.receiveCord(), "receive", level);
        use(uses, of.substitutionCord(), "third", level);
      }
    }
    return uses;
  }

  private static void use(Map<String, Use> uses, String cord, String role, Frame.Level level) {
    if (!cord.isEmpty()) {
      Use use = uses.computeIfAbsent(cord, k -> new Use());
      use.levels.set(level.index());
      use.zeros.add(level.zero());
      use.roles.add(role);
    }
  }

  private CordShift shift(String cord, Use use, Map<String, Use> uses) {
    double[] pe = new double[frame.levels.size()];
    double information = 0;
    double score = 0;
    double weighted = 0;
    double weights = 0;
    for (int zero : use.zeros) {
      int found = ownShift(zero, use);
      if (found >= 0) {
        double variance = fit.varianceOfPart(fit.effectAt(found));
        weighted += fit.parts[fit.effectAt(found)] / variance;
        weights += 1 / variance;
        continue;
      }
      int[] own = frame.levelsOfZero[zero];
      double[] prior = fit.priorOf(zero);
      for (int i = 0; i < own.length; i++) {
        for (int j = 0; j < own.length; j++) {
          if (use.levels.get(own[j])) {
            pe[own[i]] += prior[i * own.length + j];
          }
        }
        score += pe[own[i]] * fit.levels[own[i]];
        information += use.levels.get(own[i]) ? pe[own[i]] : 0;
      }
    }
    double[] levels = new double[pe.length];
    fit.covarianceTimes(pe, new double[fit.borderSize()], levels, new double[fit.borderSize()]);
    for (int l = 0; l < pe.length; l++) {
      information -= pe[l] * levels[l];
    }
    if (information > 1e-6) {
      weighted += score;
      weights += information;
    }
    weights = Math.max(weights, 1e-6);
    return new CordShift(
        cord,
        List.copyOf(use.roles),
        use.zeros.stream().map(z -> frame.zeros.get(z).id()).toList(),
        weighted / weights,
        1 / Math.sqrt(weights),
        confounded(cord, use, uses),
        matings(use));
  }

  /** The place of a shift of this zero among the effects that touches the cord's levels, or -1. */
  private int ownShift(int zero, Use use) {
    for (int e = 0; e < fit.effects.size(); e++) {
      if (fit.effects.get(e) instanceof Effect.Shift shift && shift.zero() == zero) {
        for (int level : frame.levelsOfZero[zero]) {
          if (use.levels.get(level) && shift.part().holds(frame.levels.get(level))) {
            return e;
          }
        }
      }
    }
    return -1;
  }

  /**
   * Cords that stood in the same levels always; what all its zeros cannot be told from; and the job
   * itself, or its directions, if no other cord stood in its place anywhere.
   */
  private List<String> confounded(String cord, Use use, Map<String, Use> uses) {
    List<String> names = new ArrayList<>();
    uses.forEach(
        (other, its) -> {
          if (!other.equals(cord) && its.levels.equals(use.levels)) {
            names.add("cord " + other);
          }
        });
    Set<Effect> shared = new LinkedHashSet<>();
    boolean first = true;
    for (int zero : use.zeros) {
      List<Effect> own = confounded.getOrDefault(zero, List.of());
      if (first) {
        shared.addAll(own);
      } else {
        shared.retainAll(own);
      }
      first = false;
    }
    if (use.levels.equals(read)) {
      shared.add(new Effect.Usual());
    } else if (isAlone(use)) {
      shared.add(new Effect.Bias());
    }
    shared.forEach(effect -> names.add(Naming.plain(frame, effect)));
    return names;
  }

  /** Whether it stood in every level of the directions it served. */
  private boolean isAlone(Use use) {
    for (Frame.Level level : frame.levels) {
      if (read.get(level.index()) && !use.levels.get(level.index())) {
        for (int own = use.levels.nextSetBit(0); own >= 0; own = use.levels.nextSetBit(own + 1)) {
          if (frame.levels.get(own).forward() == level.forward()) {
            return false;
          }
        }
      }
    }
    return true;
  }

  /** One for each fibre and direction, however many wavelengths were read. */
  private int matings(Use use) {
    int count = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      boolean forward = false;
      boolean back = false;
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        if (use.levels.get(frame.levelOf[r])) {
          boolean way = frame.levels.get(frame.levelOf[r]).forward();
          forward |= way;
          back |= !way;
        }
      }
      count += (forward ? 1 : 0) + (back ? 1 : 0);
    }
    return count;
  }
}
