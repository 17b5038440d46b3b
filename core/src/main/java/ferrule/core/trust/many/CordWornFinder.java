package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Cord;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.uncertainty.OrderStats;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code cord-worn}: a launch or receive cord is near its end, by its matings or by the
 * verifications of the zeros that used it.
 *
 * <p>Cords are type-tested to {@value #MATINGS} matings as a rule, and retired then, or when they
 * verify 0.1 dB higher than at first, or stay above what two reference-grade plugs lose (common
 * practice, no source). It never blocks: a worn cord adds loss, so what was accepted with it
 * stands; a verification outside its window blocks by itself ({@code zero-verification}).
 */
public final class CordWornFinder implements DoubtFinder {

  /** Matings to which cords are type-tested as a rule. Common practice, no source. */
  static final int MATINGS = 500;

  /**
   * Matings on record may already count this job's. Where the record alone is below {@link
   * #MATINGS}, record and job together count as over only from this on. Judgement.
   */
  static final int MATINGS_WITH_JOB = 650;

  /** Rise against a cord's own first value at which it is retired, dB. Common practice. */
  static final double RISE_DB = 0.10;

  /** A rise must also stand out of the verifications' own scatter, by this many times. */
  private static final double RISE_SD = 3.5;

  /** Scatter of one verification, dB, where there are too few to tell. Common practice. */
  private static final double USUAL_SCATTER_DB = 0.03;

  /** Most that two reference-grade plugs lose, dB, where the rulebook does not say. */
  private static final Map<FibreKind, Double> USUAL_PAIR_DB =
      Map.of(FibreKind.SINGLE_MODE, 0.20, FibreKind.MULTIMODE, 0.10);

  /** One zero as a cord saw it. */
  private record Use(Zero zero, List<ZeroLevel> levels) {
    Instant setAt() {
      return levels.stream().map(ZeroLevel::setAt).min(Instant::compareTo).orElseThrow();
    }

    OptionalDouble verification() {
      return levels.stream()
          .flatMap(l -> l.verification().stream())
          .mapToDouble(v -> v.value())
          .average();
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Map<String, List<Use>> uses = new LinkedHashMap<>();
    ledger.job().cords().forEach(cord -> uses.put(cord.id(), new ArrayList<>()));
    for (Zero zero : ledger.job().zeros()) {
      Map<String, List<ZeroLevel>> levels = new LinkedHashMap<>();
      for (ZeroLevel level : zero.levels()) {
        for (String cord : new TreeSet<>(List.of(level.launchCord(), level.receiveCord()))) {
          if (!cord.isEmpty()) {
            levels.computeIfAbsent(cord, k -> new ArrayList<>(4)).add(level);
          }
        }
      }
      levels.forEach(
          (cord, of) -> uses.computeIfAbsent(cord, k -> new ArrayList<>()).add(new Use(zero, of)));
    }
    uses.forEach((cord, of) -> look(ledger, cord, of, out));
  }

  private static void look(Ledger ledger, String cord, List<Use> uses, Consumer<Doubt> out) {
    uses.sort(Comparator.comparing(Use::setAt));
    @Nullable Doubt doubt = byMatings(ledger, cord, uses);
    if (doubt == null) {
      doubt = byVerifications(ledger, cord, uses);
    }
    if (doubt != null) {
      out.accept(doubt);
    }
  }

  private static List<AssessedReading> readings(Ledger ledger, List<Use> uses) {
    List<AssessedReading> readings = new ArrayList<>();
    for (Use use : uses) {
      for (ZeroLevel level : use.levels()) {
        readings.addAll(ledger.byLevel().of(level));
      }
    }
    return readings;
  }

  // -- matings

  private static @Nullable Doubt byMatings(Ledger ledger, String cord, List<Use> uses) {
    int onRecord = ledger.cord(cord).map(c -> c.matings().orElse(0)).orElse(0);
    boolean overAlready = onRecord >= MATINGS;
    List<AssessedReading> byTime = readings(ledger, uses);
    if (!overAlready && onRecord + (long) byTime.size() < MATINGS_WITH_JOB) {
      return null;
    }
    byTime.sort(
        Comparator.comparing((AssessedReading r) -> r.reading().measuredAt())
            .thenComparingInt(AssessedReading::index));
    BitSet matings = new BitSet();
    int count = onRecord;
    List<AssessedReading> reach = new ArrayList<>();
    for (AssessedReading reading : byTime) {
      // A link's first fibre stands for the link; unscheduled ones are not counted.
      int mating = 2 * (reading.slot() - reading.reading().fibre() + 1);
      mating += reading.forward() ? 0 : 1;
      if (reading.slot() >= 0 && !matings.get(mating)) {
        matings.set(mating);
        count++;
      }
      if (overAlready || count > MATINGS) {
        reach.add(reading);
      }
    }
    if (!overAlready && count < MATINGS_WITH_JOB) {
      return null;
    }
    reach.sort(Comparator.comparingInt(AssessedReading::index));
    return doubt(
        cord,
        reach,
        List.of(
            Evidence.of(
                "what",
                onRecord
                    + " matings on record and "
                    + (count - onRecord)
                    + " in this job; "
                    + MATINGS
                    + " is usual"),
            Evidence.of("matings_on_record", onRecord),
            Evidence.of("matings_in_job", count - onRecord),
            Evidence.of("matings_usual", MATINGS)));
  }

  // -- verifications

  private static @Nullable Doubt byVerifications(Ledger ledger, String cord, List<Use> uses) {
    List<Use> verified = uses.stream().filter(u -> u.verification().isPresent()).toList();
    if (verified.size() < 2) {
      return null;
    }
    double[] values = verified.stream().mapToDouble(u -> u.verification().orElseThrow()).toArray();
    int since = risenSince(values);
    double bound = Double.NaN;
    double first = first(values);
    if (since < 0) {
      since = highSince(ledger, verified, values);
      if (since < 0) {
        return null;
      }
      bound = bound(ledger, verified.get(since));
    }
    Use from = verified.get(since);
    List<Use> worn = uses.stream().filter(u -> !u.setAt().isBefore(from.setAt())).toList();
    List<Evidence> evidence = new ArrayList<>();
    double last = values[values.length - 1];
    evidence.add(
        Evidence.of(
            "what",
            Double.isNaN(bound)
                ? "verifications rose from "
                    + Decibels.shown(first)
                    + " to "
                    + Decibels.shown(last)
                    + " dB since zero "
                    + from.zero().id()
                : "verifications stand above "
                    + Decibels.shown(bound)
                    + " dB since zero "
                    + from.zero().id()));
    evidence.add(Evidence.of("first_verification_db", first));
    evidence.add(Evidence.of("last_verification_db", last));
    evidence.add(Evidence.of("zeros_verified", values.length));
    if (!Double.isNaN(bound)) {
      evidence.add(Evidence.of("bound_db", bound));
    }
    Set<String> partners = partners(cord, verified);
    if (!partners.isEmpty()) {
      evidence.add(Evidence.of("verified_against", String.join(", ", partners)));
    }
    List<AssessedReading> reach = readings(ledger, worn);
    reach.sort(Comparator.comparingInt(AssessedReading::index));
    return doubt(cord, reach, evidence);
  }

  /** A cord's first value, dB: the median of the first three, or the first if there are few. */
  private static double first(double[] values) {
    return values.length < 6
        ? values[0]
        : OrderStats.median(new double[] {values[0], values[1], values[2]});
  }

  /**
   * From which zero on all verifications stand higher than at first by more than {@link #RISE_DB}
   * and more than their scatter; -1 unless the last two at least do.
   */
  private static int risenSince(double[] values) {
    if (values.length < 3) {
      return -1;
    }
    double high = first(values) + Math.max(RISE_DB, RISE_SD * scatter(values)) - 1e-9;
    int since = values.length;
    while (since > 0 && values[since - 1] >= high) {
      since--;
    }
    return values.length - since >= 2 ? since : -1;
  }

  /** Scatter of one verification about a steady course, dB, from one zero to the next. */
  private static double scatter(double[] values) {
    if (values.length < 4) {
      return USUAL_SCATTER_DB;
    }
    double[] changes = new double[values.length - 1];
    for (int i = 0; i < changes.length; i++) {
      changes[i] = values[i + 1] - values[i];
    }
    // A change holds the scatter of two.
    return OrderStats.spread(changes) / Math.sqrt(2);
  }

  /** From which zero on all verifications stand above their bound; -1 unless the last two do. */
  private static int highSince(Ledger ledger, List<Use> verified, double[] values) {
    int since = values.length;
    while (since > 0 && values[since - 1] > bound(ledger, verified.get(since - 1)) + 1e-9) {
      since--;
    }
    return values.length - since >= 2 ? since : -1;
  }

  /**
   * What two reference-grade plugs may lose at most by the zero's method, dB; no end to it else.
   */
  private static double bound(Ledger ledger, Use use) {
    ZeroLevel level = use.levels().get(0);
    if (isOrdinary(ledger, level.launchCord()) || isOrdinary(ledger, level.receiveCord())) {
      return Double.POSITIVE_INFINITY;
    }
    FibreKind kind =
        level
            .category()
            .map(FibreCategory::kind)
            .orElse(
                level.wavelength().nm() == 850 || level.wavelength().nm() == 1300
                    ? FibreKind.MULTIMODE
                    : FibreKind.SINGLE_MODE);
    double pair =
        ledger
            .requirement()
            .rulebook()
            .referencePairLimit(kind)
            .map(f -> f.value())
            .orElse(USUAL_PAIR_DB.getOrDefault(kind, 0.20));
    return VerificationWindow.of(use.zero().method(), pair).highest().value();
  }

  private static boolean isOrdinary(Ledger ledger, String cord) {
    Optional<Cord> known = ledger.cord(cord);
    return known.isPresent()
        && List.of(known.get().end1(), known.get().end2()).stream()
            .anyMatch(end -> end.grade().filter(g -> g == CordGrade.STANDARD).isPresent());
  }

  private static Set<String> partners(String cord, List<Use> uses) {
    Set<String> partners = new LinkedHashSet<>();
    for (Use use : uses) {
      for (ZeroLevel level : use.levels()) {
        partners.add(level.launchCord().equals(cord) ? level.receiveCord() : level.launchCord());
      }
    }
    partners.remove(cord);
    partners.remove("");
    return partners;
  }

  private static Doubt doubt(String cord, List<AssessedReading> reach, List<Evidence> evidence) {
    return new Doubt(
        DoubtKind.CORD_WORN,
        new Subject(Subject.Type.CORD, cord),
        false,
        Reach.of(reach),
        evidence,
        Causes.ranked(
            "the end face is worn or scratched",
            "dirt that cleaning did not take off",
            "the adapter sleeve or the cord it was mated to is worn",
            "the count of matings is another cord's"),
        new NextStep(
                "cord:" + cord,
                "Inspect and clean both ends of cord "
                    + cord
                    + "; replace it if it is worn, set a new zero and verify it",
                Steps.commonPlace(reach),
                2 * Handling.INSPECT_FACE + Handling.RE_ZERO)
            .withResults(
                "Scratches stay after cleaning, and a new cord verifies "
                    + Decibels.shown(RISE_DB)
                    + " dB lower or more",
                "The faces are whole, and the cord verifies as at first once clean"));
  }
}
