package ferrule.core.trust.paper;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LossDb;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.ByLevel;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * {@code zero-unverified} and {@code zero-verification}: whether the launch cord mated to the
 * receive cord read what two good plugs read.
 *
 * <p>The window follows the method ({@link VerificationWindow}). Its bound for one pair is the
 * rulebook's for reference-grade plugs, 0.20 dB single-mode and 0.10 dB multimode; an ordinary plug
 * on record widens it to the allowance of an end connection, two of them to that of a connection.
 */
public final class ZeroVerificationFinder implements DoubtFinder {

  /** Used only if a rulebook holds no bound of its own (one public source). */
  private static final Map<FibreKind, Double> USUAL_PAIR_DB =
      Map.of(FibreKind.SINGLE_MODE, 0.20, FibreKind.MULTIMODE, 0.10);

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    ByLevel byLevel = ledger.byLevel();
    for (Zero zero : ledger.job().zeros()) {
      unverified(zero, byLevel, out);
      outside(ledger, zero, byLevel, out);
    }
  }

  private static void unverified(Zero zero, ByLevel byLevel, Consumer<Doubt> out) {
    List<ZeroLevel> without =
        zero.levels().stream().filter(l -> l.verification().isEmpty()).toList();
    boolean allZero = isExactlyZeroEverywhere(zero);
    if (without.isEmpty() && !allZero) {
      return;
    }
    List<ZeroLevel> levels = allZero ? zero.levels() : without;
    List<AssessedReading> reach = byLevel.of(zero, levels::contains);
    out.accept(
        new Doubt(
            DoubtKind.ZERO_UNVERIFIED,
            Subject.reference(zero.id()),
            true,
            Reach.of(reach),
            List.of(
                Evidence.of(
                    "what",
                    allZero
                        ? "verification reads exactly 0.00 dB at every wavelength; real matings lose a"
                            + " little"
                        : "no verification at " + Levels.shown(without)),
                Evidence.of("levels_without", without.size()),
                Evidence.of("levels", zero.levels().size())),
            allZero
                ? Causes.ranked(
                    "the zero was read again instead of the mated cords",
                    "the receive cord never left the line")
                : Causes.ranked("not done", "done and not written down"),
            allZero
                ? Steps.verify(zero.id(), reach)
                    .withResults(
                        "Mated, the cords read above 0.00 dB: the zero itself was read before",
                        "They read 0.00 dB again at every wavelength: look at the line")
                : Steps.verify(zero.id(), reach)
                    .withResults(
                        "None was made; if the cords read inside their window now, the zero holds",
                        "A verification of that day turns up: hand it in")));
  }

  private static boolean isExactlyZeroEverywhere(Zero zero) {
    return zero.levels().stream()
        .allMatch(l -> l.verification().filter(v -> v.value() == 0).isPresent());
  }

  private static void outside(Ledger ledger, Zero zero, ByLevel byLevel, Consumer<Doubt> out) {
    List<ZeroLevel> outside = new ArrayList<>();
    ZeroLevel worst = null;
    double worstBy = 0;
    for (ZeroLevel level : zero.levels()) {
      double by = outsideBy(ledger, zero, level);
      if (by > 0) {
        outside.add(level);
        if (by > worstBy) {
          worst = level;
          worstBy = by;
        }
      }
    }
    if (worst == null || worst.verification().isEmpty()) {
      return;
    }
    LossDb verification = worst.verification().get();
    VerificationWindow window = window(ledger, zero, worst);
    List<AssessedReading> reach = byLevel.of(zero, outside::contains);
    boolean low = verification.compareTo(window.lowest()) < 0;
    out.accept(
        new Doubt(
            DoubtKind.ZERO_VERIFICATION,
            Subject.reference(zero.id()),
            true,
            Reach.of(reach),
            List.of(
                Evidence.of(
                    "what",
                    Decibels.shown(verification.value())
                        + " dB at "
                        + Levels.shown(worst)
                        + ", outside "
                        + window.shown()),
                Evidence.of("verification_db", verification.value()),
                Evidence.of("window_low_db", window.lowest().value()),
                Evidence.of("window_high_db", window.highest().value()),
                Evidence.of("levels_outside", outside.size())),
            low
                ? Causes.ranked(
                    "the zero was set with a worse mating than now, dirt for instance",
                    "the source rose after the zero was set")
                : Causes.ranked(
                    "dirt",
                    "a worn or scratched cord end",
                    "a worn adapter sleeve",
                    "a cord that is not reference-grade",
                    "cords of different cores"),
            low
                ? Steps.reZero(zero.id(), reach)
                    .withResults(
                        "The new zero stores more than "
                            + Decibels.shown(worst.power().value())
                            + " dBm at "
                            + Levels.shown(worst)
                            + " and verifies within "
                            + window.shown(),
                        "It stores as much and again verifies below: let the source warm up")
                : Steps.reZero(zero.id(), reach)
                    .withResults(
                        "Once clean, the cords verify within " + window.shown(),
                        "They verify above "
                            + Decibels.shown(window.highest().value())
                            + " dB with clean ends: try other cords and another adapter")));
  }

  /** How far a verification lies outside its window, dB; 0 inside or without one. */
  private static double outsideBy(Ledger ledger, Zero zero, ZeroLevel level) {
    if (level.verification().isEmpty()) {
      return 0;
    }
    VerificationWindow window = window(ledger, zero, level);
    LossDb verification = level.verification().get();
    if (window.holds(verification)) {
      return 0;
    }
    return Math.max(
        window.lowest().value() - verification.value(),
        verification.value() - window.highest().value());
  }

  /** Whether a level was verified, within its window, and not by re-reading the zero. */
  static boolean isVerified(Ledger ledger, Zero zero, ZeroLevel level) {
    return level.verification().isPresent()
        && outsideBy(ledger, zero, level) == 0
        && !isExactlyZeroEverywhere(zero);
  }

  private static VerificationWindow window(Ledger ledger, Zero zero, ZeroLevel level) {
    FibreKind kind = Levels.kind(level);
    Rulebook rulebook = ledger.requirement().rulebook();
    double pair =
        rulebook
            .referencePairLimit(kind)
            .map(Figure::value)
            .orElse(USUAL_PAIR_DB.getOrDefault(kind, 0.20));
    int ordinary =
        (isOrdinary(ledger, level.launchCord()) ? 1 : 0)
            + (isOrdinary(ledger, level.receiveCord()) ? 1 : 0);
    if (ordinary == 1) {
      pair = rulebook.endLimit(kind, CordGrade.REFERENCE).map(Figure::value).orElse(pair);
    } else if (ordinary == 2) {
      pair = rulebook.innerLimit(kind).map(Figure::value).orElse(pair);
    }
    return VerificationWindow.of(zero.method(), pair);
  }

  /** Whether a cord has no reference-grade end and at least one that is known to be ordinary. */
  private static boolean isOrdinary(Ledger ledger, String cord) {
    return ledger
        .cord(cord)
        .filter(
            c ->
                List.of(c.end1(), c.end2()).stream()
                        .noneMatch(e -> e.grade().filter(g -> g == CordGrade.REFERENCE).isPresent())
                    && List.of(c.end1(), c.end2()).stream().anyMatch(e -> e.grade().isPresent()))
        .isPresent();
  }
}
