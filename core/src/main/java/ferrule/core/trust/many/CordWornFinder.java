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
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;

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

  private final Timeline timeline;

  /** A finder for the ledger of this timeline. */
  public CordWornFinder(Timeline timeline) {
    this.timeline = timeline;
  }

  /** One zero as a cord saw it. */
  private static final class Use {
    final Zero zero;
    final List<ZeroLevel> levels = new ArrayList<>(4);
    private Instant setAt;

    Use(Zero zero, ZeroLevel first) {
      this.zero = zero;
      this.setAt = first.setAt();
      levels.add(first);
    }

    void add(ZeroLevel level) {
      levels.add(level);
      if (level.setAt().isBefore(setAt)) {
        setAt = level.setAt();
      }
    }

    Instant setAt() {
      return setAt;
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
      for (ZeroLevel level : zero.levels()) {
        String launch = level.launchCord();
        String receive = level.receiveCord();
        boolean launchFirst = launch.compareTo(receive) <= 0;
        add(uses, launchFirst ? launch : receive, zero, level);
        if (!launch.equals(receive)) {
          add(uses, launchFirst ? receive : launch, zero, level);
        }
      }
    }
    Look look = new Look(ledger, timeline.moments());
    uses.forEach((cord, of) -> look.at(cord, of).ifPresent(out));
  }

  private static void add(Map<String, List<Use>> uses, String cord, Zero zero, ZeroLevel level) {
    if (cord.isEmpty()) {
      return;
    }
    List<Use> ofCord = uses.computeIfAbsent(cord, k -> new ArrayList<>());
    if (!ofCord.isEmpty() && ofCord.get(ofCord.size() - 1).zero == zero) {
      ofCord.get(ofCord.size() - 1).add(level);
    } else {
      ofCord.add(new Use(zero, level));
    }
  }

  /** Looks at one cord after the other. */
  private static final class Look {
    private static final int NONE = Integer.MAX_VALUE;

    private final Ledger ledger;
    private final List<AssessedReading> all;
    private final Moments moments;

    /** Readings in question, by index; empty before and after each look. */
    private final BitSet reached;

    /** The place in order of time of the first reading of each mating; none between looks. */
    private final int[] firstOfMating;

    Look(Ledger ledger, Moments moments) {
      this.ledger = ledger;
      this.all = ledger.readings();
      this.moments = moments;
      this.reached = new BitSet(all.size());
      this.firstOfMating = new int[2 * ledger.job().links().size()];
      Arrays.fill(firstOfMating, NONE);
    }

    Optional<Doubt> at(String cord, List<Use> uses) {
      uses.sort(Comparator.comparing(Use::setAt));
      Optional<Doubt> doubt = byMatings(cord, uses);
      return doubt.isPresent() ? doubt : byVerifications(cord, uses);
    }

    /** What was read under some zeros at or after a place in order of time, as handed in. */
    private List<AssessedReading> readings(List<Use> uses, int fromRank) {
      int size = 0;
      int first = Integer.MAX_VALUE;
      for (Use use : uses) {
        for (ZeroLevel level : use.levels) {
          for (AssessedReading reading : ledger.byLevel().of(level)) {
            int index = reading.index();
            if (moments.rank(index) >= fromRank && !reached.get(index)) {
              reached.set(index);
              first = Math.min(first, index);
              size++;
            }
          }
        }
      }
      List<AssessedReading> readings = new ArrayList<>(size);
      for (int left = size, i = first; left > 0; left--) {
        i = reached.nextSetBit(i);
        readings.add(all.get(i));
        reached.clear(i);
      }
      return readings;
    }

    // -- matings

    private Optional<Doubt> byMatings(String cord, List<Use> uses) {
      int onRecord = ledger.cord(cord).map(c -> c.matings().orElse(0)).orElse(0);
      boolean overAlready = onRecord >= MATINGS;
      long readings = 0;
      for (Use use : uses) {
        for (ZeroLevel level : use.levels) {
          readings += ledger.byLevel().of(level).size();
        }
      }
      if (!overAlready && onRecord + readings < MATINGS_WITH_JOB) {
        return Optional.empty();
      }
      int[] matings = matings(uses);
      int count = onRecord + matings.length;
      if (!overAlready && count < MATINGS_WITH_JOB) {
        return Optional.empty();
      }
      int fromRank = overAlready ? 0 : matings[MATINGS - onRecord];
      return Optional.of(
          doubt(
              cord,
              readings(uses, fromRank),
              List.of(
                  Evidence.of(
                      "what",
                      onRecord
                          + " matings on record and "
                          + matings.length
                          + " in this job; "
                          + MATINGS
                          + " is usual"),
                  Evidence.of("matings_on_record", onRecord),
                  Evidence.of("matings_in_job", matings.length),
                  Evidence.of("matings_usual", MATINGS))));
    }

    /**
     * The place in order of time at which each mating was first read from; ascending. A link's
     * number stands for the link; unscheduled ones are not counted.
     */
    private int[] matings(List<Use> uses) {
      Indexes found = new Indexes();
      for (Use use : uses) {
        for (ZeroLevel level : use.levels) {
          for (AssessedReading reading : ledger.byLevel().of(level)) {
            if (reading.slot() >= 0) {
              int mating = 2 * moments.link(reading.index()) + (reading.forward() ? 0 : 1);
              if (firstOfMating[mating] == NONE) {
                found.add(mating);
              }
              firstOfMating[mating] =
                  Math.min(firstOfMating[mating], moments.rank(reading.index()));
            }
          }
        }
      }
      int[] first = found.toArray();
      for (int i = 0; i < first.length; i++) {
        int mating = first[i];
        first[i] = firstOfMating[mating];
        firstOfMating[mating] = NONE;
      }
      Arrays.sort(first);
      return first;
    }

    // -- verifications

    private Optional<Doubt> byVerifications(String cord, List<Use> uses) {
      List<Use> verified = uses.stream().filter(u -> u.verification().isPresent()).toList();
      if (verified.size() < 2) {
        return Optional.empty();
      }
      double[] values =
          verified.stream().mapToDouble(u -> u.verification().orElseThrow()).toArray();
      int since = risenSince(values);
      double bound = Double.NaN;
      double first = first(values);
      if (since < 0) {
        since = highSince(ledger, verified, values);
        if (since < 0) {
          return Optional.empty();
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
                      + from.zero.id()
                  : "verifications stand above "
                      + Decibels.shown(bound)
                      + " dB since zero "
                      + from.zero.id()));
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
      return Optional.of(doubt(cord, readings(worn, 0), evidence));
    }
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
    ZeroLevel level = use.levels.get(0);
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
    return VerificationWindow.of(use.zero.method(), pair).highest().value();
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
      for (ZeroLevel level : use.levels) {
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
