package ferrule.core.trust.paper;

import ferrule.core.optics.Decibels;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.ByLevel;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * {@code zero-power}: the stored power is outside the window of its source, or unlike the source's
 * own history: more than 0.5 dB from the median of its other zeros with the same kind of cord, or
 * more than 0.3 dB from the zero before with the same launch cord (common practice, no source).
 *
 * <p>Outside the window blocks. Unlike its history blocks unless the zero's own verification is
 * within its window: a verified zero is direct evidence, a change of power may have come from the
 * source side of the launch cord, where it cancels.
 */
public final class ZeroPowerFinder implements DoubtFinder {

  /** Further than this from the median of a source's other zeros is unlike its history, dB. */
  public static final double FROM_MEDIAN_DB = 0.5;

  /** Further than this from the zero before with the same launch cord is, dB. */
  public static final double FROM_PREVIOUS_DB = 0.3;

  /** From so many other zeros on the median counts, below it the zero before. */
  public static final int ENOUGH_OTHERS = 3;

  private record Dated(Zero zero, ZeroLevel level) {}

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    ByLevel byLevel = ledger.byLevel();
    for (Zero zero : ledger.job().zeros()) {
      window(ledger, zero, byLevel, out);
    }
    history(ledger, byLevel, out);
  }

  private static void window(Ledger ledger, Zero zero, ByLevel byLevel, Consumer<Doubt> out) {
    List<ZeroLevel> outside = new ArrayList<>();
    for (ZeroLevel level : zero.levels()) {
      if (!windowOf(ledger, level).holds(level.power())) {
        outside.add(level);
      }
    }
    if (outside.isEmpty()) {
      return;
    }
    ZeroLevel worst =
        Collections.max(outside, Comparator.comparingDouble(l -> shortfall(ledger, l)));
    PowerWindow window = windowOf(ledger, worst);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            Decibels.shown(worst.power().value())
                + " dBm at "
                + Levels.shown(worst)
                + ", outside "
                + window.shown()));
    evidence.add(Evidence.of("power_dbm", worst.power().value()));
    evidence.add(Evidence.of("window_low_dbm", window.lowest().value()));
    evidence.add(Evidence.of("window_high_dbm", window.highest().value()));
    evidence.add(Evidence.of("shortfall_db", shortfall(ledger, worst)));
    evidence.add(Evidence.of("levels_outside", outside.size()));
    evidence.add(Evidence.of("window_origin", window.origin()));
    List<AssessedReading> reach = byLevel.of(zero, outside::contains);
    out.accept(
        new Doubt(
            DoubtKind.ZERO_POWER,
            Subject.reference(zero.id()),
            true,
            Reach.of(reach),
            evidence,
            causes(fall(ledger, worst), worst.power().compareTo(window.highest()) > 0),
            next(zero, window, worst, fall(ledger, worst), reach)));
  }

  /** What the new zero tells of the first of {@link #causes}. */
  private static NextStep next(
      Zero zero, PowerWindow window, ZeroLevel worst, double fall, List<AssessedReading> reach) {
    String inside = "the new zero stores " + window.shown() + " at " + Levels.shown(worst);
    NextStep step = Steps.reZero(zero.id(), reach);
    if (worst.power().compareTo(window.highest()) > 0) {
      return step.withResults(
          "With the source and cords on record " + inside,
          "It stores more again: look at the wavelength that the meter is set to");
    }
    if (fall >= 12) {
      return step.withResults(
          "The cord's print says single-mode; with one of the links' core " + inside,
          "The cord is of the right core: try another, then the source");
    }
    if (fall >= 2.5 && fall <= 5) {
      return step.withResults(
          "The output was modulated; with steady light " + inside,
          "The light was steady: compare the cord's core with the source's, clean the port");
    }
    return step.withResults(
        "Once port and launch end are clean, " + inside,
        "It stores as little with clean ends: try another launch cord, let the source warm up");
  }

  /**
   * How far the power fell: from the median of the source's other zeros if there are enough, else
   * from the window.
   */
  private static double fall(Ledger ledger, ZeroLevel level) {
    double[] others =
        ledger.job().zeros().stream()
            .flatMap(zero -> zero.levels().stream())
            .filter(l -> l != level && !l.source().isEmpty() && l.source().equals(level.source()))
            .filter(l -> l.wavelength().equals(level.wavelength()))
            .filter(l -> l.direction() == level.direction())
            .filter(l -> windowOf(ledger, l).holds(l.power()))
            .mapToDouble(l -> l.power().value())
            .sorted()
            .toArray();
    return others.length >= ENOUGH_OTHERS
        ? others[others.length / 2] - level.power().value()
        : shortfall(ledger, level);
  }

  /** The size of the fall sorts the causes. */
  private static List<Cause> causes(double shortfall, boolean tooHigh) {
    if (tooHigh) {
      return Causes.ranked(
          "another source or another cord than on record",
          "the meter was set to another wavelength",
          "the power was typed wrong");
    }
    if (shortfall >= 12) {
      return Causes.ranked(
          "single-mode cord on a multimode source", "broken launch cord", "source off or failing");
    }
    if (shortfall >= 2.5 && shortfall <= 5) {
      return Causes.ranked(
          "source on modulated output",
          "50 µm cord on a 62.5 µm source",
          "dirty source port or launch end");
    }
    return Causes.ranked(
        "dirty source port or launch end",
        "bent or damaged launch cord",
        "source not warmed up or low battery");
  }

  private static double shortfall(Ledger ledger, ZeroLevel level) {
    PowerWindow window = windowOf(ledger, level);
    double power = level.power().value();
    return Math.max(window.lowest().value() - power, power - window.highest().value());
  }

  private static PowerWindow windowOf(Ledger ledger, ZeroLevel level) {
    return ledger.requirement().settings().powerWindow(Levels.kind(level));
  }

  /** By direction too: the two directions of one zero are one event, not each other's history. */
  private static void history(Ledger ledger, ByLevel byLevel, Consumer<Doubt> out) {
    Map<String, List<Dated>> bySource = new LinkedHashMap<>();
    for (Zero zero : ledger.job().zeros()) {
      for (ZeroLevel level : zero.levels()) {
        if (!level.source().isEmpty() && windowOf(ledger, level).holds(level.power())) {
          bySource
              .computeIfAbsent(
                  level.source() + " " + Levels.shown(level) + " " + Levels.kind(level),
                  k -> new ArrayList<>())
              .add(new Dated(zero, level));
        }
      }
    }
    for (List<Dated> levels : bySource.values()) {
      levels.sort(Comparator.comparing((Dated d) -> d.level().setAt()));
      double[] sorted =
          levels.stream().mapToDouble(d -> d.level().power().value()).sorted().toArray();
      for (int i = 0; i < levels.size(); i++) {
        odd(ledger, levels, i, sorted, byLevel).ifPresent(out);
      }
    }
  }

  private static Optional<Doubt> odd(
      Ledger ledger, List<Dated> levels, int at, double[] sorted, ByLevel byLevel) {
    Dated own = levels.get(at);
    double power = own.level().power().value();
    int others = sorted.length - 1;
    double fromMedian = others >= ENOUGH_OTHERS ? power - medianWithout(sorted, power) : 0;
    double fromPrevious = 0;
    for (int i = at - 1; i >= 0; i--) {
      ZeroLevel before = levels.get(i).level();
      if (!before.launchCord().isEmpty()
          && before.launchCord().equals(own.level().launchCord())
          && before.setAt().isBefore(own.level().setAt())) {
        fromPrevious = power - before.power().value();
        break;
      }
    }
    boolean oddToMedian = Math.abs(fromMedian) > FROM_MEDIAN_DB;
    boolean oddToPrevious = Math.abs(fromPrevious) > FROM_PREVIOUS_DB;
    if (others >= ENOUGH_OTHERS ? !oddToMedian : !oddToPrevious) {
      return Optional.empty();
    }
    boolean verified = ZeroVerificationFinder.isVerified(ledger, own.zero(), own.level());
    List<AssessedReading> reach = byLevel.of(own.level());
    double odd = oddToMedian ? fromMedian : fromPrevious;
    return Optional.of(
        new Doubt(
            DoubtKind.ZERO_POWER,
            Subject.reference(own.zero().id()),
            !verified,
            Reach.of(reach),
            List.of(
                Evidence.of(
                    "what",
                    Decibels.shown(power)
                        + " dBm at "
                        + Levels.shown(own.level())
                        + ", "
                        + Decibels.shown(Math.abs(odd))
                        + " dB "
                        + (odd < 0 ? "below " : "above ")
                        + (oddToMedian
                            ? "the median of this source's other zeros"
                            : "the zero before with this launch cord")),
                Evidence.of("power_dbm", power),
                Evidence.of("difference_db", odd),
                Evidence.of("other_zeros", others),
                Evidence.of("verified", verified ? "yes" : "no")),
            Causes.ranked(
                "source not warmed up",
                "launch end dirty when the zero was set",
                "launch cord wearing",
                "change of temperature"),
            Steps.verify(own.zero().id(), reach, odd)));
  }

  /** The median of sorted values with one of them, equal to {@code without}, left out. */
  private static double medianWithout(double[] sorted, double without) {
    int out = Arrays.binarySearch(sorted, without);
    int count = sorted.length - 1;
    int half = count / 2;
    double upper = sorted[half < out ? half : half + 1];
    if (count % 2 == 1) {
      return upper;
    }
    double lower = sorted[half - 1 < out ? half - 1 : half];
    return (lower + upper) / 2;
  }
}
