package ferrule.core.isolation;

import ferrule.core.isolation.NextMeasurement.Why;
import ferrule.core.optics.LossDb;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * Looks for the path to measure next among all that can be mated from the ends on record: two cords
 * with one end each, or a third cord between them of which both ends are on record.
 *
 * <p>One more reading with factors {@code c} and variance {@code s^2} changes what is known as
 * follows, with {@code Q} and {@code C} of {@link LeastSquares}. If {@code c'Qc > 0} it raises the
 * rank by one; then end i can be told if {@code Q_ii = 0}, as before, or {@code (Qc)_i^2 = Q_ii
 * c'Qc}, with the variance {@code a^2 s^2 + (e_i - a c)'C(e_i - a c)}, {@code a = (Qc)_i / c'Qc}.
 * Otherwise the variance of a told end falls by {@code (Cc)_i^2 / (s^2 + c'Cc)}.
 */
final class NextSearch {

  /** Steps planned ahead; with more unknown, the plan is made anew after these. */
  private static final int MOST_STEPS = 6;

  /** An end told to a display step is told well enough, even if it lies at the limit. */
  static final double GOOD_ENOUGH_DB = 0.01;

  private final List<PathReading> readings;
  private final List<EndId> record;
  private final LeastSquares fitted;
  private final Spread spread;
  private final double perMating;
  private final Set<EndId> launches = new HashSet<>();

  /**
   * @param record ends on record, as {@code fitted} numbers them
   * @param perMating variance to expect of one mating, dB squared
   */
  NextSearch(
      List<PathReading> readings,
      List<EndId> record,
      LeastSquares fitted,
      Spread spread,
      double perMating) {
    this.readings = readings;
    this.record = record;
    this.fitted = fitted;
    this.spread = spread;
    this.perMating = perMating;
    readings.forEach(reading -> launches.add(reading.path().launch()));
  }

  /** The next measurement; empty if nothing more is needed. */
  Optional<NextMeasurement> next(List<EndFinding> findings, List<SpecialPair> special) {
    if (fitted.rank() < record.size()) {
      return Optional.of(tell());
    }
    if (!special.isEmpty()) {
      Mating pair = special.get(0).pair();
      MatedPath path = oriented(pair.first(), pair.second());
      return Optional.of(
          new NextMeasurement(
              Why.REPEAT,
              path,
              !launches.contains(path.launch()),
              false,
              List.of(),
              Optional.empty(),
              OptionalDouble.empty(),
              OptionalDouble.empty(),
              List.of()));
    }
    return decide(findings);
  }

  /** A path that could be measured, and what it would bring. */
  private record Candidate(MatedPath path, boolean newZero, int told, int worst, double variance) {}

  /** Most ends told, then the smallest largest variance, then the least trouble, then by name. */
  private static final Comparator<Candidate> BEST =
      Comparator.comparingInt((Candidate c) -> -c.told())
          // Arithmetic noise must not decide between equals.
          .thenComparingLong(c -> Math.round(c.variance() * 1e12))
          .thenComparing(Candidate::newZero)
          .thenComparingInt(c -> c.path().matings().size())
          .thenComparing(c -> c.path().toString());

  private NextMeasurement tell() {
    List<EndId> ends = new ArrayList<>(record);
    LeastSquares state = fitted;
    List<PathReading> all = new ArrayList<>(readings);
    List<Candidate> steps = new ArrayList<>();
    boolean further = false;
    while (steps.size() < MOST_STEPS && toldCount(state) < record.size()) {
      Optional<Candidate> best = bestToTell(ends, state);
      if (best.isEmpty() && !further) {
        // Nothing on record can help: one more cord, both of whose ends are unknown as well.
        further = true;
        String name = furtherName();
        ends.add(new EndId(name, 1));
        ends.add(new EndId(name, 2));
        state = solved(all, ends);
        best = bestToTell(ends, state);
      }
      if (best.isEmpty()) {
        break;
      }
      steps.add(best.get());
      all.add(imagined(best.get().path()));
      state = solved(all, ends);
    }
    Candidate first = steps.get(0);
    boolean firstFurther = first.path().ends().stream().anyMatch(end -> !record.contains(end));
    int[] row = Isolator.indices(ends, first.path());
    List<EndId> tells = new ArrayList<>();
    LeastSquares before = ends.size() == record.size() ? fitted : solved(readings, ends);
    Effect effect = new Effect(before, row, variance(first.path()));
    for (int i = 0; i < record.size(); i++) {
      if (before.unseen()[i][i] >= LeastSquares.TINY && effect.tells(i)) {
        tells.add(record.get(i));
      }
    }
    boolean anyWorst = first.told() > 0;
    return new NextMeasurement(
        Why.TELL,
        first.path(),
        first.newZero(),
        firstFurther,
        tells,
        anyWorst ? Optional.of(record.get(first.worst())) : Optional.empty(),
        anyWorst && isTold(before, first.worst())
            ? OptionalDouble.of(shownSd(before.covariance()[first.worst()][first.worst()]))
            : OptionalDouble.empty(),
        anyWorst ? OptionalDouble.of(shownSd(first.variance())) : OptionalDouble.empty(),
        steps.stream().skip(1).map(Candidate::path).toList());
  }

  private Optional<NextMeasurement> decide(List<EndFinding> findings) {
    List<Integer> open = new ArrayList<>();
    for (int i = 0; i < findings.size(); i++) {
      EndFinding finding = findings.get(i);
      if (finding.state() == EndState.UNDECIDED
          && finding.loss().orElseThrow().sdDb() > GOOD_ENOUGH_DB) {
        open.add(i);
      }
    }
    if (open.isEmpty()) {
      return Optional.empty();
    }
    Candidate best =
        paths(record).stream()
            .map(
                path -> {
                  Effect effect =
                      new Effect(fitted, Isolator.indices(record, path), variance(path));
                  return candidate(path, record.size(), open, effect);
                })
            .min(BEST)
            .orElseThrow();
    int worst =
        open.stream().max(Comparator.comparingDouble(i -> fitted.covariance()[i][i])).orElseThrow();
    Effect effect =
        new Effect(fitted, Isolator.indices(record, best.path()), variance(best.path()));
    return Optional.of(
        new NextMeasurement(
            Why.DECIDE,
            best.path(),
            best.newZero(),
            false,
            List.of(),
            Optional.of(record.get(worst)),
            OptionalDouble.of(shownSd(fitted.covariance()[worst][worst])),
            OptionalDouble.of(shownSd(effect.variance(worst))),
            List.of()));
  }

  private double shownSd(double variance) {
    return spread.factor() * Math.sqrt(Math.max(0, variance));
  }

  private Optional<Candidate> bestToTell(List<EndId> ends, LeastSquares state) {
    Candidate best = null;
    for (MatedPath path : paths(ends)) {
      Effect effect = new Effect(state, Isolator.indices(ends, path), variance(path));
      if (!effect.raisesRank()) {
        continue;
      }
      List<Integer> told = new ArrayList<>();
      for (int i = 0; i < record.size(); i++) {
        if (effect.tells(i)) {
          told.add(i);
        }
      }
      Candidate candidate = candidate(path, told.size(), told, effect);
      if (best == null || BEST.compare(candidate, best) < 0) {
        best = candidate;
      }
    }
    return Optional.ofNullable(best);
  }

  private Candidate candidate(MatedPath path, int told, List<Integer> ends, Effect effect) {
    int worst = -1;
    double most = 0;
    for (int end : ends) {
      double variance = effect.variance(end);
      if (worst < 0 || variance > most) {
        worst = end;
        most = variance;
      }
    }
    return new Candidate(path, !launches.contains(path.launch()), told, worst, most);
  }

  private int toldCount(LeastSquares state) {
    int count = 0;
    for (int i = 0; i < record.size(); i++) {
      count += isTold(state, i) ? 1 : 0;
    }
    return count;
  }

  private static boolean isTold(LeastSquares state, int end) {
    return state.unseen()[end][end] < LeastSquares.TINY;
  }

  private String furtherName() {
    String name = "N";
    for (int i = 1; isOnRecord(name); i++) {
      name = "N" + i;
    }
    return name;
  }

  private boolean isOnRecord(String cord) {
    return record.stream().anyMatch(end -> end.cord().equals(cord));
  }

  private double variance(MatedPath path) {
    return perMating * path.matings().size();
  }

  /** A reading yet to be made: its value has no part in what can be told and how well. */
  private PathReading imagined(MatedPath path) {
    return new PathReading(
        path,
        LossDb.ZERO,
        Optional.empty(),
        OptionalDouble.of(Math.sqrt(variance(path))),
        Optional.empty());
  }

  private static LeastSquares solved(List<PathReading> readings, List<EndId> ends) {
    return new LeastSquares(
        readings.stream().map(r -> Isolator.indices(ends, r.path())).toList(),
        readings.stream().mapToDouble(r -> r.loss().value()).toArray(),
        readings.stream().mapToDouble(PathReading::sd).toArray(),
        ends.size());
  }

  /** Every path of two or three cords that these ends allow, each once whichever way it is lit. */
  private List<MatedPath> paths(List<EndId> ends) {
    Set<EndId> known = new HashSet<>(ends);
    // Turning the third cord end for end adds the same ends: once is enough.
    List<String> middles =
        ends.stream()
            .filter(end -> end.number() == 1 && known.contains(new EndId(end.cord(), 2)))
            .map(EndId::cord)
            .toList();
    List<MatedPath> paths = new ArrayList<>();
    for (int i = 0; i < ends.size(); i++) {
      for (int j = i + 1; j < ends.size(); j++) {
        if (ends.get(i).cord().equals(ends.get(j).cord())) {
          continue;
        }
        MatedPath direct = oriented(ends.get(i), ends.get(j));
        paths.add(direct);
        Mating mating = direct.matings().get(0);
        for (String middle : middles) {
          if (!middle.equals(mating.first().cord()) && !middle.equals(mating.second().cord())) {
            MatedPath.joined(
                    List.of(
                        new Mating(mating.first(), new EndId(middle, 1)),
                        new Mating(new EndId(middle, 2), mating.second())))
                .ifPresent(paths::add);
          }
        }
      }
    }
    return paths;
  }

  /** The path of two ends, launched from one that has launched a reading before, if either has. */
  private MatedPath oriented(EndId one, EndId other) {
    return launches.contains(other) && !launches.contains(one)
        ? MatedPath.of(other, one)
        : MatedPath.of(one, other);
  }

  /** What one more reading would do. */
  private static final class Effect {
    private final LeastSquares state;
    private final double[] unseen;
    private final double[] covariance;
    private final double unseenOfRow;
    private final double varianceOfRow;
    private final double variance;

    Effect(LeastSquares state, int[] row, double variance) {
      this.state = state;
      this.variance = variance;
      this.unseen = columns(state.unseen(), row);
      this.covariance = columns(state.covariance(), row);
      this.unseenOfRow = sum(unseen, row);
      this.varianceOfRow = sum(covariance, row);
    }

    private static double[] columns(double[][] symmetric, int[] row) {
      double[] sum = new double[symmetric.length];
      for (int j : row) {
        for (int i = 0; i < sum.length; i++) {
          sum[i] += symmetric[j][i];
        }
      }
      return sum;
    }

    private static double sum(double[] values, int[] row) {
      double sum = 0;
      for (int i : row) {
        sum += values[i];
      }
      return sum;
    }

    boolean raisesRank() {
      return unseenOfRow >= LeastSquares.TINY;
    }

    boolean tells(int end) {
      double own = state.unseen()[end][end];
      return own < LeastSquares.TINY
          || (raisesRank()
              && own * unseenOfRow - unseen[end] * unseen[end] < LeastSquares.TINY * unseenOfRow);
    }

    double variance(int end) {
      double own = state.covariance()[end][end];
      if (!raisesRank()) {
        return own - covariance[end] * covariance[end] / (variance + varianceOfRow);
      }
      double share = isTold(state, end) ? 0 : unseen[end] / unseenOfRow;
      return share * share * variance
          + own
          - 2 * share * covariance[end]
          + share * share * varianceOfRow;
    }
  }
}
