package ferrule.core.trust.joint;

import ferrule.core.trust.CordShift;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Separation;
import ferrule.core.trust.Sight;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jspecify.annotations.Nullable;

/**
 * The joint estimate of a job and what it found: the shift of every zero with its standard
 * deviation, and the troubles that many readings share.
 */
public final class JointEstimate {

  /**
   * An honest zero may be off by as much, dB: a smaller shift is not worth a doubt, however sure.
   */
  public static final double HONEST_DB = 0.08;

  /** Suspects whose log-likelihood comes this near to the one taken in explain the data as well. */
  private static final double AS_GOOD = 3;

  /** Two groups that share more than this of their fibres cannot be told apart. */
  private static final double NEARLY_THE_SAME = 0.6;

  private static final int MOST_FINDINGS = 60;
  private static final int MANY_ZEROS = 20;

  /** For no more findings than this are separating readings sought. */
  private static final int MOST_SEPARATED = 20;

  /** And for each of them from no more alternatives than this. */
  private static final int MOST_RIVALS = 3;

  /**
   * Estimated shift of one level of a zero.
   *
   * @param shiftDb how far its readings lie above what the job's other readings say, dB
   * @param sdDb standard deviation, dB
   */
  public record LevelShift(double shiftDb, double sdDb) {}

  /**
   * A trouble taken in, with those that would have explained the data about as well.
   *
   * @param separations by the effect of an alternative, what would tell the two apart
   */
  record Finding(Suspect suspect, List<Suspect> alternatives, Map<Effect, Separation> separations) {
    Finding(Suspect suspect, List<Suspect> alternatives) {
      this(suspect, alternatives, Map.of());
    }
  }

  private final Optional<JointFit> fit;
  private final List<Finding> findings;
  private final Map<ZeroLevel, LevelShift> shifts;
  private final Map<DoubtKind, Integer> looks;
  private final List<Finding> hidden;
  private @Nullable Map<String, Confounded> confounded;
  private @Nullable List<Sight> sights;
  private @Nullable List<CordShift> cords;

  private JointEstimate(
      Optional<JointFit> fit,
      List<Finding> findings,
      Map<ZeroLevel, LevelShift> shifts,
      Map<DoubtKind, Integer> looks) {
    this.fit = fit;
    this.findings = findings;
    this.shifts = shifts;
    this.looks = looks;
    this.hidden = fit.map(Hidden::in).orElse(List.of());
  }

  /** Estimates a job. A job without readings that can be used has an empty estimate. */
  public static JointEstimate of(Ledger ledger) {
    Frame frame = Frame.of(ledger);
    if (frame.fibres() == 0) {
      return new JointEstimate(Optional.empty(), List.of(), Map.of(), Map.of());
    }
    JointFit fit = JointFit.of(frame);
    List<Finding> findings = new ArrayList<>();
    Map<DoubtKind, Integer> looks = Map.of();
    while (findings.size() < MOST_FINDINGS) {
      Search search = new Search(fit);
      List<Suspect> suspects = search.suspects();
      if (findings.isEmpty()) {
        looks = search.looks();
      }
      List<Suspect> ringing = suspects.stream().filter(Suspect::rings).toList();
      if (ringing.isEmpty()) {
        break;
      }
      List<Suspect> taken = taken(frame, ringing);
      for (Suspect suspect : taken) {
        findings.add(new Finding(suspect, alternatives(frame, suspect, suspects, ringing, taken)));
      }
      fit = fit.with(findings.stream().map(f -> f.suspect().effect()).toList());
      if (findings.size() == taken.size()) {
        fit = fit.refined();
      }
    }
    findings = settled(fit, findings);
    if (findings.size() < fit.effects.size()) {
      fit = fit.with(findings.stream().map(f -> f.suspect().effect()).toList());
      findings = settled(fit, findings);
    }
    if (findings.stream().allMatch(f -> f.alternatives().isEmpty())) {
      return new JointEstimate(Optional.of(fit), List.copyOf(findings), shifts(fit), looks);
    }
    Settled settled = decided(new Settled(fit, findings));
    return new JointEstimate(
        Optional.of(settled.fit()), separated(settled), shifts(settled.fit()), looks);
  }

  /** The best; in a job of many zeros also the best of every other zero, for they hardly meet. */
  private static List<Suspect> taken(Frame frame, List<Suspect> ringing) {
    List<Suspect> taken = new ArrayList<>();
    taken.add(ringing.get(0));
    if (frame.zeros.size() < MANY_ZEROS || zeroOf(ringing.get(0).effect()) < 0) {
      return taken;
    }
    Set<Integer> zeros = new HashSet<>();
    zeros.add(zeroOf(ringing.get(0).effect()));
    for (Suspect suspect : ringing) {
      int zero = zeroOf(suspect.effect());
      if (zero >= 0 && taken.size() < MOST_FINDINGS / 2 && zeros.add(zero)) {
        taken.add(suspect);
      }
    }
    return taken;
  }

  /** The zero that an effect is bound to, or -1. */
  static int zeroOf(Effect effect) {
    if (effect instanceof Effect.Shift shift) {
      return shift.zero();
    }
    if (effect instanceof Effect.Step step) {
      return step.zero();
    }
    return effect instanceof Effect.Drift drift ? drift.zero() : -1;
  }

  /**
   * Those that explain the data about as well: nearly as unlikely by chance, or a zero and a panel
   * that have nearly the same fibres, for then no reading tells the two apart.
   */
  private static List<Suspect> alternatives(
      Frame frame,
      Suspect best,
      List<Suspect> suspects,
      List<Suspect> ringing,
      List<Suspect> taken) {
    List<Suspect> others = new ArrayList<>();
    for (Suspect other : ringing) {
      if (!taken.contains(other) && other.logChance() - best.logChance() < AS_GOOD) {
        others.add(other);
      }
    }
    if (!isZeroOrPanel(best)) {
      return others;
    }
    BitSet touched = touched(frame, best.effect());
    for (Suspect other : suspects) {
      if (isZeroOrPanel(other)
          && !taken.contains(other)
          && !others.contains(other)
          && other.effect().getClass() != best.effect().getClass()
          && other.sizeDb() * best.sizeDb() > 0
          && Math.abs(other.sizeDb()) >= other.effect().leastSizeDb()
          && Math.abs(other.ratio()) > 2
          && shared(touched, touched(frame, other.effect())) > NEARLY_THE_SAME) {
        others.add(other);
      }
    }
    return others;
  }

  private static boolean isZeroOrPanel(Suspect suspect) {
    return suspect.effect() instanceof Effect.Shift || suspect.effect() instanceof Effect.HighPlace;
  }

  /** The fibres of which an effect touches a reading. */
  static BitSet touched(Frame frame, Effect effect) {
    BitSet fibres = new BitSet();
    for (int i = 0; i < frame.fibres(); i++) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        if (effect.at(frame, i, r) != 0) {
          fibres.set(i);
          break;
        }
      }
    }
    return fibres;
  }

  /** Fibres of both over fibres of either. */
  private static double shared(BitSet one, BitSet other) {
    BitSet both = (BitSet) one.clone();
    both.and(other);
    BitSet either = (BitSet) one.clone();
    either.or(other);
    return both.cardinality() / (double) Math.max(1, either.cardinality());
  }

  /**
   * Findings with their sizes as estimated together; those that faded beside others are left out.
   */
  private static List<Finding> settled(JointFit fit, List<Finding> findings) {
    List<Finding> settled = new ArrayList<>();
    for (Finding finding : findings) {
      int at = fit.effects.indexOf(finding.suspect().effect());
      double size = fit.parts[fit.effectAt(at)];
      double sd = Math.sqrt(fit.varianceOfPart(fit.effectAt(at)));
      Suspect before = finding.suspect();
      if (Math.abs(size) < 0.5 * before.effect().leastSizeDb() || Math.abs(size) < 2.5 * sd) {
        continue;
      }
      settled.add(
          new Finding(
              new Suspect(before.effect(), size, sd, before.logChance(), before.fibres()),
              finding.alternatives()));
    }
    return settled;
  }

  private record Settled(JointFit fit, List<Finding> findings) {}

  /**
   * What readings taken twice, under two zeros, tell of findings and their alternatives: those that
   * they rule out are left out, and an alternative that they prefer takes the finding's place.
   */
  private static Settled decided(Settled before) {
    JointFit fit = before.fit();
    List<Finding> findings = new ArrayList<>(before.findings());
    ReadTwice twice = new ReadTwice(fit);
    int looked = 0;
    for (int f = 0; f < findings.size() && looked < MOST_SEPARATED; f++) {
      Finding finding = findings.get(f);
      if (finding.alternatives().isEmpty()) {
        continue;
      }
      looked++;
      Suspect suspect = finding.suspect();
      List<Suspect> open = new ArrayList<>();
      Suspect better = null;
      double least = -AS_GOOD;
      for (Suspect other : finding.alternatives()) {
        if (fit.effects.contains(other.effect())) {
          open.add(other);
          continue;
        }
        // A zero and a panel explain the same amount: one size for both.
        boolean alike = isZeroOrPanel(suspect) && isZeroOrPanel(other);
        double size = alike ? suspect.sizeDb() : other.sizeDb();
        double ratio = twice.logRatio(suspect.effect(), suspect.sizeDb(), other.effect(), size);
        if (ratio < least) {
          better = other;
          least = ratio;
        } else if (ratio <= AS_GOOD) {
          open.add(other);
        }
      }
      List<Finding> changed = new ArrayList<>(findings);
      changed.set(f, new Finding(better == null ? suspect : better, open));
      if (better != null) {
        JointFit other = fit.with(changed.stream().map(c -> c.suspect().effect()).toList());
        changed = settled(other, changed);
        if (changed.size() < findings.size()) {
          continue;
        }
        fit = other;
      }
      findings = changed;
    }
    return new Settled(fit, findings);
  }

  /** Findings with the readings that would tell them from their alternatives. */
  private static List<Finding> separated(Settled settled) {
    JointFit fit = settled.fit();
    Separations separations = new Separations(fit);
    List<Finding> findings = new ArrayList<>();
    int looked = 0;
    for (Finding finding : settled.findings()) {
      if (finding.alternatives().isEmpty() || looked++ >= MOST_SEPARATED) {
        findings.add(finding);
        continue;
      }
      Map<Effect, Separation> found = new HashMap<>();
      for (Suspect other : finding.alternatives()) {
        if (found.size() < MOST_RIVALS && !fit.effects.contains(other.effect())) {
          separations
              .of(finding.suspect().effect(), other.effect())
              .ifPresent(s -> found.put(other.effect(), s));
        }
      }
      findings.add(new Finding(finding.suspect(), finding.alternatives(), Map.copyOf(found)));
    }
    return List.copyOf(findings);
  }

  /** The shift of every level, its zero set free from the prior of an honest one. */
  private static Map<ZeroLevel, LevelShift> shifts(JointFit fit) {
    Map<ZeroLevel, LevelShift> shifts = new IdentityHashMap<>();
    Frame frame = fit.frame;
    boolean[] read = new boolean[frame.levels.size()];
    for (int r = 0; r < frame.readings(); r++) {
      read[frame.levelOf[r]] = true;
    }
    for (int z = 0; z < frame.zeros.size(); z++) {
      int[] own = frame.levelsOfZero[z];
      Optional<double[][]> free = setFree(fit, z);
      for (int k = 0; k < own.length; k++) {
        Frame.Level level = frame.levels.get(own[k]);
        if (!read[own[k]]) {
          continue;
        }
        double effect = 0;
        double variance = 0;
        for (int e = 0; e < fit.effects.size(); e++) {
          if (fit.effects.get(e) instanceof Effect.Shift shift
              && shift.zero() == z
              && shift.part().holds(level)) {
            effect += fit.parts[fit.effectAt(e)];
            variance += fit.varianceOfPart(fit.effectAt(e));
          }
        }
        if (variance > 0) {
          shifts.put(
              level.level(),
              new LevelShift(
                  effect + fit.levels[own[k]],
                  Math.sqrt(variance + fit.covariance(own[k], own[k]))));
        } else if (free.isPresent()) {
          shifts.put(level.level(), new LevelShift(free.get()[0][k], Math.sqrt(free.get()[1][k])));
        }
      }
    }
    return shifts;
  }

  /** Sizes and variances of a zero's levels without their prior: {@code (P - PCP)^-1 P theta}. */
  private static Optional<double[][]> setFree(JointFit fit, int zero) {
    int[] own = fit.frame.levelsOfZero[zero];
    int k = own.length;
    DMatrixRMaj p = DMatrixRMaj.wrap(k, k, fit.priorOf(zero).clone());
    DMatrixRMaj c = new DMatrixRMaj(k, k);
    DMatrixRMaj theta = new DMatrixRMaj(k, 1);
    for (int i = 0; i < k; i++) {
      theta.set(i, 0, fit.levels[own[i]]);
      for (int j = 0; j < k; j++) {
        c.set(i, j, fit.covariance(own[i], own[j]));
      }
    }
    DMatrixRMaj pc = new DMatrixRMaj(k, k);
    DMatrixRMaj pcp = new DMatrixRMaj(k, k);
    CommonOps_DDRM.mult(p, c, pc);
    CommonOps_DDRM.mult(pc, p, pcp);
    DMatrixRMaj information = new DMatrixRMaj(k, k);
    CommonOps_DDRM.subtract(p, pcp, information);
    for (int i = 0; i < k; i++) {
      // A level without readings has no information: hold it, it is not shown.
      information.add(i, i, 1e-6);
    }
    DMatrixRMaj covariance = new DMatrixRMaj(k, k);
    if (!CommonOps_DDRM.invert(information, covariance)) {
      return Optional.empty();
    }
    DMatrixRMaj score = new DMatrixRMaj(k, 1);
    CommonOps_DDRM.mult(p, theta, score);
    DMatrixRMaj size = new DMatrixRMaj(k, 1);
    CommonOps_DDRM.mult(covariance, score, size);
    double[][] result = new double[2][k];
    for (int i = 0; i < k; i++) {
      result[0][i] = size.get(i, 0);
      result[1][i] = Math.max(covariance.get(i, i), 0);
    }
    return Optional.of(result);
  }

  /** The estimated shift of a level; empty if nothing was read under it. */
  public Optional<LevelShift> shift(ZeroLevel level) {
    return Optional.ofNullable(shifts.get(level));
  }

  /**
   * What is left of a fibre's readings above what was expected; empty for a fibre without readings
   * that can be used.
   *
   * @param slot of the fibre in the ledger
   */
  public Optional<FibreExcess> excess(int slot) {
    return fit.flatMap(f -> FibreExcess.of(f, slot));
  }

  /**
   * How small a trouble of each zero and place, and of direction, the readings would still show, by
   * a fit without any trouble in it. Worked out when first asked for.
   */
  public synchronized List<Sight> sights() {
    if (sights == null) {
      sights =
          fit.map(f -> Sights.of(f.effects.isEmpty() ? f : f.with(List.of()), looks))
              .orElse(List.of());
    }
    return sights;
  }

  /**
   * What cannot be told from a shift of one zero, in words, and what would tell them apart.
   *
   * @param with what it is confounded with
   * @param separations the readings that would separate it, for the first of these or for what its
   *     doubts name; empty if none are known
   */
  public record Confounded(List<String> with, List<Separation> separations) {}

  /**
   * By the id of a zero, in the order on record; zeros whose shift can be told are left out. Worked
   * out when first asked for.
   */
  public synchronized Map<String, Confounded> confounded() {
    if (confounded == null) {
      confounded = Collections.unmodifiableMap(findConfounded());
    }
    return confounded;
  }

  private Map<String, Confounded> findConfounded() {
    Map<String, Confounded> all = new LinkedHashMap<>();
    if (fit.isEmpty()) {
      return all;
    }
    Frame frame = fit.get().frame;
    Map<Integer, List<Effect>> byRule = Confounding.of(fit.get());
    Separations separations = new Separations(fit.get());
    int sought = 0;
    for (int z = 0; z < frame.zeros.size(); z++) {
      Set<String> with = new LinkedHashSet<>();
      List<Separation> would = new ArrayList<>();
      for (Finding finding : findings) {
        addRivals(frame, finding, z, with, would);
      }
      List<Effect> rivals = byRule.getOrDefault(z, List.of());
      rivals.forEach(r -> with.add(Naming.plain(frame, r)));
      if (would.isEmpty() && !rivals.isEmpty() && sought++ < MOST_SEPARATED) {
        would.add(separations.ofSize(new Effect.Shift(z, Part.ALL), rivals.get(0), HONEST_DB));
      }
      if (!with.isEmpty()) {
        all.put(frame.zeros.get(z).id(), new Confounded(List.copyOf(with), List.copyOf(would)));
      }
    }
    return all;
  }

  private static void addRivals(
      Frame frame, Finding finding, int zero, Set<String> with, List<Separation> would) {
    List<Effect> together = new ArrayList<>();
    together.add(finding.suspect().effect());
    finding.alternatives().forEach(a -> together.add(a.effect()));
    if (together.stream().noneMatch(e -> e instanceof Effect.Shift && zeroOf(e) == zero)) {
      return;
    }
    for (Effect effect : together) {
      if (zeroOf(effect) != zero) {
        with.add(Naming.plain(frame, effect));
      }
      Separation separation = finding.separations().get(effect);
      if (separation != null) {
        would.add(separation);
      }
    }
  }

  /**
   * The shift of every cord under which something was read, in the order of the zeros. Worked out
   * when first asked for.
   */
  public synchronized List<CordShift> cords() {
    if (cords == null) {
      cords = fit.map(f -> List.copyOf(Cords.of(f, Confounding.of(f)))).orElse(List.of());
    }
    return cords;
  }

  /** Troubles that may hide behind connections inside the links: not part of the estimate. */
  List<Finding> hidden() {
    return hidden;
  }

  /** How many looks of each kind the search took. */
  Map<DoubtKind, Integer> looks() {
    return looks;
  }

  List<Finding> findings() {
    return findings;
  }

  Optional<JointFit> fit() {
    return fit;
  }
}
