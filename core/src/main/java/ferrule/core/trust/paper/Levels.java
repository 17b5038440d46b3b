package ferrule.core.trust.paper;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.zero.ZeroLevel;
import java.util.Collection;
import java.util.Set;

/** What the finders of this package ask of a level. */
final class Levels {

  /** Wavelengths at which multimode cabling is tested; the others are single-mode. */
  private static final Set<Integer> MULTIMODE_NM = Set.of(850, 953, 1300);

  private Levels() {}

  /** The kind of fibre: as on record, or else from the wavelength. */
  static FibreKind kind(ZeroLevel level) {
    return level
        .category()
        .map(FibreCategory::kind)
        .orElse(
            MULTIMODE_NM.contains(level.wavelength().nm())
                ? FibreKind.MULTIMODE
                : FibreKind.SINGLE_MODE);
  }

  /** "1310 nm A-B". */
  static String shown(ZeroLevel level) {
    return level.wavelength() + " " + level.direction().word();
  }

  /** "1310 nm A-B, 1550 nm A-B". */
  static String shown(Collection<ZeroLevel> levels) {
    return String.join(", ", levels.stream().map(Levels::shown).toList());
  }
}
