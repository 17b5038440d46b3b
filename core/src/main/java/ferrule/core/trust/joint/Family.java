package ferrule.core.trust.joint;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import java.util.ArrayList;
import java.util.List;

/**
 * Fibres of one category and the cases (direction and wavelength) in which a job reads them.
 *
 * <p>The pattern says how a loss at a connection shows at each wavelength: by lateral offset it
 * falls with the square of the mode field, 1.278 times more at 1310 than at 1550 nm (Marcuse 1977);
 * on multimode fibre it is taken as equal.
 */
final class Family {

  /** Most cases that one family may have; readings of further ones are left out and counted. */
  static final int MOST_CASES = 16;

  private final FibreCategory category;
  private final int index;
  private final List<Integer> wavelengths = new ArrayList<>();
  private final List<Case> cases = new ArrayList<>();

  /** A direction and a wavelength of a family. */
  record Case(boolean forward, int nm, int wavelengthAt, double pattern) {}

  Family(int index, FibreCategory category) {
    this.index = index;
    this.category = category;
  }

  int index() {
    return index;
  }

  FibreCategory category() {
    return category;
  }

  boolean singleMode() {
    return category.kind() == FibreKind.SINGLE_MODE;
  }

  /** The place of a case, added if new; -1 if there is no room for more. */
  int caseAt(boolean forward, int nm) {
    for (int i = 0; i < cases.size(); i++) {
      if (cases.get(i).nm() == nm && cases.get(i).forward() == forward) {
        return i;
      }
    }
    if (cases.size() == MOST_CASES) {
      return -1;
    }
    int at = wavelengths.indexOf(nm);
    if (at < 0) {
      at = wavelengths.size();
      wavelengths.add(nm);
    }
    cases.add(new Case(forward, nm, at, pattern(nm)));
    return cases.size() - 1;
  }

  private double pattern(int nm) {
    return singleMode() ? SingleModeCoupling.offsetFactorFrom1310(new Wavelength(nm)) : 1;
  }

  List<Case> cases() {
    return cases;
  }

  int wavelengths() {
    return wavelengths.size();
  }

  int nm(int wavelengthAt) {
    return wavelengths.get(wavelengthAt);
  }

  double patternOf(int wavelengthAt) {
    return pattern(wavelengths.get(wavelengthAt));
  }
}
