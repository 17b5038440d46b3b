package ferrule.app.desk.page;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Cord;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The windows that a level of a zero is held against, as the doubts about zeros draw them. Repeats
 * a rule that core keeps to itself; a test holds the two together.
 */
final class ZeroWindows {

  private static final Set<Integer> MULTIMODE_NM = Set.of(850, 953, 1300);

  private ZeroWindows() {}

  private static FibreKind kind(ZeroLevel level) {
    return level
        .category()
        .map(FibreCategory::kind)
        .orElse(
            MULTIMODE_NM.contains(level.wavelength().nm())
                ? FibreKind.MULTIMODE
                : FibreKind.SINGLE_MODE);
  }

  static PowerWindow power(Ledger ledger, ZeroLevel level) {
    return ledger.requirement().settings().powerWindow(kind(level));
  }

  static VerificationWindow verification(Ledger ledger, Zero zero, ZeroLevel level) {
    FibreKind kind = kind(level);
    Rulebook rulebook = ledger.requirement().rulebook();
    double usual = kind == FibreKind.SINGLE_MODE ? 0.20 : 0.10;
    double pair = rulebook.referencePairLimit(kind).map(Figure::value).orElse(usual);
    long ordinary =
        Stream.of(level.launchCord(), level.receiveCord())
            .flatMap(id -> ledger.cord(id).stream())
            .filter(ZeroWindows::isOrdinary)
            .count();
    if (ordinary == 1) {
      pair = rulebook.endLimit(kind, CordGrade.REFERENCE).map(Figure::value).orElse(pair);
    } else if (ordinary == 2) {
      pair = rulebook.innerLimit(kind).map(Figure::value).orElse(pair);
    }
    return VerificationWindow.of(zero.method(), pair);
  }

  private static boolean isOrdinary(Cord cord) {
    return Stream.of(cord.end1(), cord.end2())
            .noneMatch(e -> e.grade().filter(g -> g == CordGrade.REFERENCE).isPresent())
        && Stream.of(cord.end1(), cord.end2()).anyMatch(e -> e.grade().isPresent());
  }
}
