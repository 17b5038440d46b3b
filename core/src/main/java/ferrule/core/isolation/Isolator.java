package ferrule.core.isolation;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.Significance;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * Finds which end of which cord is bad from readings of mated paths. The order of the readings does
 * not matter, to the last digit.
 */
public final class Isolator {

  /** More ends at one wavelength than this are refused. */
  public static final int MOST_ENDS = 60;

  /** More readings at one wavelength than this are refused. */
  public static final int MOST_READINGS = 1000;

  private static final Comparator<PathReading> ORDER =
      Comparator.comparing((PathReading r) -> r.path().toString())
          .thenComparing(PathReading::loss)
          .thenComparingDouble(PathReading::sd)
          .thenComparing(r -> r.measuredAt().map(Object::toString).orElse(""));

  private final List<PathReading> readings;
  private final EndLimit limit;
  private final List<EndId> ends;
  private final double meanSquare;
  private final LeastSquares fitted;
  private final Spread spread;
  private final Optional<Fit> fit;

  private Isolator(List<PathReading> given, EndLimit limit) {
    this.readings = given.stream().sorted(ORDER).toList();
    this.limit = limit;
    this.ends =
        List.copyOf(
            new TreeSet<>(readings.stream().flatMap(r -> r.path().ends().stream()).toList()));
    if (ends.size() > MOST_ENDS || readings.size() > MOST_READINGS) {
      throw new IllegalArgumentException(
          "At most " + MOST_ENDS + " ends and " + MOST_READINGS + " readings at one wavelength");
    }
    this.fitted =
        new LeastSquares(
            readings.stream().map(r -> indices(ends, r.path())).toList(),
            readings.stream().mapToDouble(r -> r.loss().value()).toArray(),
            readings.stream().mapToDouble(PathReading::sd).toArray(),
            ends.size());
    this.meanSquare = readings.stream().mapToDouble(r -> r.sd() * r.sd()).average().orElseThrow();
    this.spread =
        Spread.of(
            meanSquare,
            readings.stream().allMatch(r -> r.sdDb().isPresent()),
            fitted.degrees(),
            fitted.chiSquare());
    this.fit =
        fitted.degrees() > 0
            ? Optional.of(new Fit(fitted.chiSquare(), fitted.degrees()))
            : Optional.empty();
  }

  /**
   * Isolates, each wavelength for itself.
   *
   * @param readings in any order
   * @param rulebook holds the most that two reference-grade ends may lose
   * @param kind of the cords; if empty, told from the wavelength
   * @return one result a wavelength, shortest first; readings without a wavelength last
   * @throws IllegalArgumentException if there are more ends or readings than {@link #MOST_ENDS} and
   *     {@link #MOST_READINGS}, or if the rulebook has no limit for a pair
   */
  public static List<Isolation> isolate(
      List<PathReading> readings, Rulebook rulebook, Optional<FibreKind> kind) {
    Map<Integer, List<PathReading>> byWavelength = new TreeMap<>();
    for (PathReading reading : readings) {
      int nm = reading.wavelength().map(Wavelength::nm).orElse(Integer.MAX_VALUE);
      byWavelength.computeIfAbsent(nm, k -> new ArrayList<>()).add(reading);
    }
    List<Isolation> found = new ArrayList<>();
    for (List<PathReading> group : byWavelength.values()) {
      EndLimit limit =
          EndLimit.of(group.get(0).wavelength(), kind, rulebook)
              .orElseThrow(
                  () ->
                      new IllegalArgumentException(
                          rulebook.id() + " says nothing of two reference-grade ends"));
      found.add(new Isolator(group, limit).isolation());
    }
    return found;
  }

  static int[] indices(List<EndId> ends, MatedPath path) {
    return path.ends().stream().mapToInt(ends::indexOf).toArray();
  }

  private Isolation isolation() {
    List<List<Integer>> classes = classes();
    List<EndFinding> findings = findings(classes);
    List<SpecialPair> special = specialPairs();
    NextSearch search = new NextSearch(readings, ends, fitted, spread, perMating());
    return new Isolation(
        readings.get(0).wavelength(),
        limit,
        readings,
        fitted.rank(),
        spread,
        fit,
        findings,
        classes.stream()
            .filter(group -> group.size() > 1 && !isTold(group.get(0)))
            .map(group -> group.stream().map(ends::get).toList())
            .toList(),
        sums(classes),
        special,
        search.next(findings, special));
  }

  /** Variance of one mating as the readings have it, dB squared. */
  private double perMating() {
    int matings = readings.stream().mapToInt(r -> r.path().matings().size()).sum();
    return meanSquare * readings.size() / matings;
  }

  private boolean isTold(int end) {
    return fitted.unseen()[end][end] < LeastSquares.TINY;
  }

  /** Whether the difference (sign -1) or the sum (sign 1) of two ends can be told. */
  private boolean tells(int one, int other, int sign) {
    double[][] q = fitted.unseen();
    return q[one][one] + q[other][other] + 2 * sign * q[one][other] < LeastSquares.TINY;
  }

  /** Ends put together whose differences can be told; those that can be told are one class. */
  private List<List<Integer>> classes() {
    List<List<Integer>> classes = new ArrayList<>();
    for (int i = 0; i < ends.size(); i++) {
      int end = i;
      classes.stream()
          .filter(group -> tells(group.get(0), end, -1))
          .findFirst()
          .orElseGet(
              () -> {
                classes.add(new ArrayList<>());
                return classes.get(classes.size() - 1);
              })
          .add(end);
    }
    return classes;
  }

  private Estimate estimate(double[] factors) {
    return new Estimate(
        fitted.value(factors), spread.factor() * Math.sqrt(fitted.variance(factors)));
  }

  private List<EndFinding> findings(List<List<Integer>> classes) {
    Map<Integer, EndFinding> byEnd = new TreeMap<>();
    for (List<Integer> group : classes) {
      for (int end : group) {
        byEnd.put(end, finding(end, contrast(end, group)));
      }
    }
    return List.copyOf(byEnd.values());
  }

  private Optional<Contrast> contrast(int end, List<Integer> group) {
    if (group.size() < 2) {
      return Optional.empty();
    }
    double[] factors = new double[ends.size()];
    List<EndId> fellows = new ArrayList<>();
    for (int other : group) {
      factors[other] = other == end ? 1 : -1.0 / (group.size() - 1);
      if (other != end) {
        fellows.add(ends.get(other));
      }
    }
    return Optional.of(new Contrast(fellows, estimate(factors), spread.degrees()));
  }

  private EndFinding finding(int end, Optional<Contrast> contrast) {
    EndId id = ends.get(end);
    int mated = (int) readings.stream().filter(r -> r.path().ends().contains(id)).count();
    if (isTold(end)) {
      double[] factors = new double[ends.size()];
      factors[end] = 1;
      Estimate loss = estimate(factors);
      double over =
          Significance.studentBelow((loss.db() - limit.db()) / loss.sdDb(), spread.degrees());
      EndState state =
          over >= EndFinding.SURE
              ? EndState.BAD
              : over <= 1 - EndFinding.SURE ? EndState.IN_ORDER : EndState.UNDECIDED;
      return new EndFinding(id, state, mated, Optional.of(loss), OptionalDouble.of(over), contrast);
    }
    OptionalDouble over =
        contrast.isPresent()
            ? OptionalDouble.of(contrast.get().over(limit.db()))
            : OptionalDouble.empty();
    boolean bad = over.isPresent() && over.getAsDouble() >= EndFinding.SURE;
    return new EndFinding(
        id, bad ? EndState.BAD : EndState.UNTOLD, mated, Optional.empty(), over, contrast);
  }

  /**
   * Sums of ends that cannot be told: of two classes the mean of one plus the mean of the other;
   * for classes without such a partner the rows of the reduced echelon form of the design.
   */
  private List<ToldSum> sums(List<List<Integer>> classes) {
    List<ToldSum> sums = new ArrayList<>();
    List<Integer> alone = new ArrayList<>();
    for (int i = 0; i < classes.size(); i++) {
      List<Integer> one = classes.get(i);
      if (isTold(one.get(0))) {
        continue;
      }
      boolean paired = false;
      for (int j = 0; j < classes.size(); j++) {
        List<Integer> other = classes.get(j);
        if (j != i && tells(one.get(0), other.get(0), 1)) {
          paired = true;
          if (j > i) {
            double[] factors = new double[ends.size()];
            one.forEach(end -> factors[end] = 1.0 / one.size());
            other.forEach(end -> factors[end] = 1.0 / other.size());
            sums.add(sum(factors));
          }
        }
      }
      if (!paired) {
        alone.addAll(one);
      }
    }
    if (!alone.isEmpty()) {
      for (double[] row : echelonRows()) {
        if (alone.stream().anyMatch(end -> row[end] != 0)) {
          sums.add(sum(row));
        }
      }
    }
    return sums;
  }

  private ToldSum sum(double[] factors) {
    List<ToldSum.Term> terms = new ArrayList<>();
    for (int i = 0; i < factors.length; i++) {
      if (factors[i] != 0) {
        terms.add(new ToldSum.Term(ends.get(i), factors[i]));
      }
    }
    return new ToldSum(terms, estimate(factors));
  }

  private List<double[]> echelonRows() {
    DMatrixRMaj design = new DMatrixRMaj(readings.size(), ends.size());
    for (int i = 0; i < readings.size(); i++) {
      for (int end : indices(ends, readings.get(i).path())) {
        design.set(i, end, 1);
      }
    }
    DMatrixRMaj reduced = CommonOps_DDRM.rref(design, ends.size(), null);
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < Math.min(fitted.rank(), readings.size()); i++) {
      double[] row = new double[ends.size()];
      for (int j = 0; j < row.length; j++) {
        double value = reduced.get(i, j);
        row[j] = Math.abs(value) < LeastSquares.TINY ? 0 : value;
      }
      rows.add(row);
    }
    return rows;
  }

  /**
   * If the fit does not hold: each pair in turn is given a loss of its own beside those of its
   * ends. The one that takes most of the chi-square away is special, if it does so beyond what the
   * number of pairs looked at explains.
   */
  private List<SpecialPair> specialPairs() {
    if (fit.isEmpty() || fit.get().holds()) {
      return List.of();
    }
    Map<Mating, boolean[]> marks = new LinkedHashMap<>();
    for (int i = 0; i < readings.size(); i++) {
      for (Mating mating : readings.get(i).path().matings()) {
        marks.computeIfAbsent(mating.pair(), k -> new boolean[readings.size()])[i] = true;
      }
    }
    List<SpecialPair> pairs = new ArrayList<>();
    double most = 0;
    for (Map.Entry<Mating, boolean[]> entry : marks.entrySet()) {
      double[] extra = fitted.extra(entry.getValue());
      if (Double.isFinite(extra[1])) {
        SpecialPair pair =
            new SpecialPair(entry.getKey(), new Estimate(extra[0], Math.sqrt(extra[1])));
        pairs.add(pair);
        most = Math.max(most, size(pair));
      }
    }
    double bound = most * (1 - 1e-6);
    if (most < Conformity.alarmLevel(pairs.size(), Fit.ALPHA, true)) {
      return List.of();
    }
    return pairs.stream()
        .filter(pair -> size(pair) >= bound)
        .sorted(Comparator.comparing((SpecialPair p) -> p.pair().toString()))
        .toList();
  }

  private static double size(SpecialPair pair) {
    return Math.abs(pair.extra().db()) / pair.extra().sdDb();
  }
}
