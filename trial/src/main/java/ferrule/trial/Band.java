package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import java.util.List;

/** The two wavelengths at which a kind of fibre is read. */
enum Band {
  SM_SHORT(1310),
  SM_LONG(1550),
  MM_SHORT(850),
  MM_LONG(1300);

  private final Wavelength wavelength;

  Band(int nm) {
    this.wavelength = new Wavelength(nm);
  }

  Wavelength wavelength() {
    return wavelength;
  }

  boolean longer() {
    return this == SM_LONG || this == MM_LONG;
  }

  /** 0 for the shorter, 1 for the longer. */
  int index() {
    return longer() ? 1 : 0;
  }

  static List<Band> of(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? List.of(SM_SHORT, SM_LONG) : List.of(MM_SHORT, MM_LONG);
  }
}
