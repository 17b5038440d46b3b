package ferrule.core.trust.joint;

import ferrule.core.plant.Direction;
import ferrule.core.trust.DoubtKind;
import ferrule.core.uncertainty.Significance;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * What a fit leaves unexplained: every effect that many readings could share is tried by its score
 * and the information left for it beside all parts already estimated.
 *
 * <p>For an effect with regressor {@code x}: size {@code = x's / i}, variance {@code 1/i}, {@code i
 * = x'Jx - g'Cg}, with {@code s} the scores of the readings, {@code g} the information it shares
 * with the estimated parts and {@code C} their covariance. A part that is in the fit already, with
 * prior precision {@code P}, is set free instead: {@code x's = c'P theta}, {@code i = c'(P -
 * PCP)c}.
 */
final class Search {

  /** Groups of fewer fibres, or of fewer links, cannot tell a shared trouble from their own. */
  static final int FEWEST = 5;

  static final int FEWEST_LINKS = 2;

  private static final double LARGEST_SHARE = 0.7;

  private final JointFit fit;
  private final Frame frame;
  private final int[][] fibresOfZero;

  /** Looks of each kind, once the suspects were sought. */
  private final Map<DoubtKind, Integer> looked = new EnumMap<>(DoubtKind.class);

  Search(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
    this.fibresOfZero = frame.fibresOfZero;
  }

  /** The likeliest effects first; at most one of each kind and subject. */
  List<Suspect> suspects() {
    List<Suspect> all = new ArrayList<>();
    shifts(all);
    stepsAndDrifts(all);
    places(all);
    positions(all);
    biases(all);
    all.removeIf(s -> !Double.isFinite(s.sizeDb()) || !Double.isFinite(s.logChance()));
    all.removeIf(s -> fit.effects.contains(s.effect()));
    all.sort(Comparator.comparingDouble(Suspect::logChance));
    return all;
  }

  /** How many looks of each kind {@link #suspects} took; for steps, of series. */
  Map<DoubtKind, Integer> looks() {
    return looked;
  }

  private void looked(DoubtKind kind, int looks) {
    if (looks > 0) {
      looked.put(kind, looks);
    }
  }

  /** Parts of a zero that its readings tell apart, the whole first. */
  private List<Part> parts(int zero) {
    Set<Boolean> directions = new LinkedHashSet<>();
    Set<Integer> nms = new LinkedHashSet<>();
    Set<Integer> used = new LinkedHashSet<>();
    for (int i : fibresOfZero[zero]) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        Frame.Level level = frame.levels.get(frame.levelOf[r]);
        if (level.zero() == zero && used.add(level.index())) {
          directions.add(level.forward());
          nms.add(level.nm());
        }
      }
      if (used.size() == frame.levelsOfZero[zero].length) {
        break;
      }
    }
    List<Part> parts = new ArrayList<>();
    parts.add(Part.ALL);
    if (directions.size() > 1) {
      for (Direction direction : Direction.values()) {
        parts.add(new Part(Optional.of(direction), 0));
      }
    }
    if (nms.size() > 1) {
      for (int nm : nms) {
        parts.add(new Part(Optional.empty(), nm));
        if (directions.size() > 1) {
          for (Direction direction : Direction.values()) {
            parts.add(new Part(Optional.of(direction), nm));
          }
        }
      }
    }
    return parts;
  }

  private void shifts(List<Suspect> out) {
    int looks = 0;
    List<Suspect> found = new ArrayList<>();
    List<Integer> enough = new ArrayList<>();
    for (int z = 0; z < frame.zeros.size(); z++) {
      if (isEnough(z)) {
        enough.add(z);
      }
    }
    if (enough.size() < 2) {
      return;
    }
    for (int z : enough) {
      Suspect best = null;
      for (Part part : parts(z)) {
        looks++;
        Suspect one = shift(z, part);
        if (best == null || Math.abs(one.ratio()) > Math.abs(best.ratio())) {
          best = one;
        }
      }
      if (best != null) {
        found.add(best);
      }
    }
    looked(DoubtKind.ZERO_SHIFT, looks);
    for (Suspect s : found) {
      out.add(judged(s, Math.log(looks) + Looks.logTwoSided(s.ratio())));
    }
  }

  /** Whether a zero has readings enough for a shift of its own. */
  boolean isEnough(int zero) {
    return fibresOfZero[zero].length >= FEWEST && frame.links(fibresOfZero[zero]) >= FEWEST_LINKS;
  }

  /** Whether it has enough for steps and drifts. */
  boolean isLongEnough(int zero) {
    return fibresOfZero[zero].length >= 2 * FEWEST;
  }

  private static Suspect judged(Suspect s, double logChance) {
    return new Suspect(
        s.effect(), s.sizeDb(), s.sdDb(), logChance - Math.log(s.effect().share()), s.fibres());
  }

  /** A shift of a part of a zero; its chance is left at 0. */
  Suspect shift(int zero, Part part) {
    int[] own = frame.levelsOfZero[zero];
    int k = own.length;
    double[] prior = fit.priorOf(zero);
    double[] pc = new double[k];
    double score = 0;
    double information = 0;
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        if (part.holds(frame.levels.get(own[j]))) {
          pc[i] += prior[i * k + j];
        }
      }
      score += pc[i] * fit.levels[own[i]];
      if (part.holds(frame.levels.get(own[i]))) {
        information += pc[i];
      }
    }
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        information -= pc[i] * fit.covariance(own[i], own[j]) * pc[j];
      }
    }
    return sized(new Effect.Shift(zero, part), score, information, fibresOfZero[zero].length);
  }

  private static Suspect sized(Effect effect, double score, double information, int fibres) {
    double i = Math.max(information, 1e-9);
    return new Suspect(effect, score / i, 1 / Math.sqrt(i), 0, fibres);
  }

  private void places(List<Suspect> out) {
    int looks = frame.places.size();
    if (looks < 2) {
      return;
    }
    looked(DoubtKind.PANEL_HIGH, looks);
    for (Suspect s : panels()) {
      if (s.sizeDb() > 0) {
        out.add(judged(s, Math.log(looks) + Significance.logNormalAbove(s.ratio())));
      }
    }
  }

  /** Every place that has others to be compared with; the chances are left at 0. */
  List<Suspect> panels() {
    int[] counts = new int[frame.places.size()];
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.placeA[i] >= 0) {
        counts[frame.placeA[i]]++;
      }
      if (frame.placeB[i] >= 0) {
        counts[frame.placeB[i]]++;
      }
    }
    JointFit alike = fit.withAlikeCables();
    List<Suspect> panels = new ArrayList<>();
    for (int p = 0; p < counts.length; p++) {
      if (counts[p] <= LARGEST_SHARE * frame.fibres()) {
        panels.add(free(alike, new Effect.HighPlace(p), alike.placeAt(p), counts[p]));
      }
    }
    return panels;
  }

  private void positions(List<Suspect> out) {
    int looks = frame.positions.size();
    if (looks == 0) {
      return;
    }
    looked(DoubtKind.POSITION_HIGH, looks);
    for (Suspect s : highPositions()) {
      if (s.sizeDb() > 0) {
        out.add(judged(s, Math.log(looks) + Significance.logNormalAbove(s.ratio())));
      }
    }
  }

  /**
   * Positions are compared within links: the part of each fibre less the mean of its link's, so
   * that neither zero nor cable nor mating of an array enters; the chances are left at 0.
   */
  List<Suspect> highPositions() {
    int looks = frame.positions.size();
    double[] own = new double[frame.fibres()];
    double[] sum = new double[looks];
    double[] stretch = new double[looks];
    int[] counts = new int[looks];
    double squares = 0;
    int all = 0;
    for (int i = 0; i < frame.fibres(); i += frame.together[i]) {
      int m = frame.together[i];
      if (m < 2) {
        continue;
      }
      double mean = 0;
      for (int j = i; j < i + m; j++) {
        own[j] = fit.ownPart(j);
        mean += own[j] / m;
      }
      for (int j = i; j < i + m; j++) {
        double apart = own[j] - mean;
        squares += apart * apart * m / (m - 1.0);
        all++;
        if (frame.position[j] >= 0) {
          sum[frame.position[j]] += apart;
          stretch[frame.position[j]] += (m - 1.0) / m;
          counts[frame.position[j]]++;
        }
      }
    }
    double sd = Math.sqrt(squares / Math.max(1, all));
    List<Suspect> found = new ArrayList<>();
    for (int p = 0; p < looks; p++) {
      if (counts[p] < FEWEST || sd == 0 || counts[p] > LARGEST_SHARE * frame.fibres()) {
        continue;
      }
      found.add(
          new Suspect(
              new Effect.HighPosition(p),
              sum[p] / stretch[p],
              sd / Math.sqrt(stretch[p]),
              0,
              counts[p]));
    }
    return found;
  }

  private void biases(List<Suspect> out) {
    int both = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      if (readBothWays(frame.families.get(frame.family[i]), frame.mask[i])) {
        both++;
      }
    }
    if (both >= FEWEST) {
      looked(DoubtKind.DIRECTION_BIAS, 1);
      Suspect s = bias(both);
      out.add(judged(s, Looks.logTwoSided(s.ratio())));
    }
  }

  /** A bias of direction over the whole job; its chance is left at 0. */
  Suspect bias(int fibres) {
    return free(fit, new Effect.Bias(), fit.biasAt(), fibres);
  }

  private static boolean readBothWays(Family family, int mask) {
    boolean forward = false;
    boolean back = false;
    for (int c = 0; c < family.cases().size(); c++) {
      if ((mask & (1 << c)) != 0) {
        forward |= family.cases().get(c).forward();
        back |= !family.cases().get(c).forward();
      }
    }
    return forward && back;
  }

  private static Suspect free(JointFit fit, Effect effect, int at, int fibres) {
    double prior = fit.precisionAt(at);
    double score = prior * fit.parts[at];
    double information = prior - prior * prior * fit.varianceOfPart(at);
    return sized(effect, score, information, fibres);
  }

  /** What one zero's scan found, and in how many looks. */
  private record Scanned(
      int stepSeries, Optional<Suspect> step, int driftLooks, Optional<Suspect> drift) {}

  private void stepsAndDrifts(List<Suspect> out) {
    List<Scanned> scans =
        IntStream.range(0, frame.zeros.size())
            .parallel()
            .filter(this::isLongEnough)
            .mapToObj(this::scan)
            .toList();
    int stepSeries = scans.stream().mapToInt(Scanned::stepSeries).sum();
    int driftLooks = scans.stream().mapToInt(Scanned::driftLooks).sum();
    looked(DoubtKind.LEVEL_STEP, stepSeries);
    looked(DoubtKind.LEVEL_DRIFT, driftLooks);
    for (Scanned scan : scans) {
      scan.step().ifPresent(s -> out.add(judged(s, Math.log(stepSeries) + s.logChance())));
    }
    for (Scanned scan : scans) {
      scan.drift()
          .ifPresent(s -> out.add(judged(s, Math.log(driftLooks) + Looks.logTwoSided(s.ratio()))));
    }
  }

  private Scanned scan(int zero) {
    ZeroScan scan = new ZeroScan(fit, zero, fibresOfZero[zero]);
    if (scan.moments() < 2) {
      return new Scanned(0, Optional.empty(), 0, Optional.empty());
    }
    List<Part> parts = parts(zero);
    int series = 0;
    Optional<Suspect> bestStep = Optional.empty();
    for (Part part : parts) {
      if (part.nm() != 0) {
        continue;
      }
      series++;
      Optional<Suspect> step = scan.cuts(part, FEWEST).largest();
      if (step.isPresent()
          && (bestStep.isEmpty() || step.get().logChance() < bestStep.get().logChance())) {
        bestStep = step;
      }
    }
    List<ZeroScan.Drifts> courses =
        Arrays.stream(Effect.Course.values()).map(c -> scan.new Drifts(c)).toList();
    int looks = 0;
    Optional<Suspect> bestDrift = Optional.empty();
    for (Part part : parts) {
      if (part.nm() != 0 && part.direction().isPresent()) {
        continue;
      }
      for (ZeroScan.Drifts course : courses) {
        looks++;
        Suspect drift = course.of(part);
        if (bestDrift.isEmpty() || Math.abs(drift.ratio()) > Math.abs(bestDrift.get().ratio())) {
          bestDrift = Optional.of(drift);
        }
      }
    }
    return new Scanned(series, bestStep, looks, bestDrift);
  }
}
