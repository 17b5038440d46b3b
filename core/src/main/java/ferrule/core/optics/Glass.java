package ferrule.core.optics;

import java.util.OptionalDouble;

/**
 * What the glass alone does, per kilometre.
 *
 * <p>The floor is the lowest credible attenuation of cabled fibre, set by Rayleigh scattering;
 * ordinary fibre lies above it. Derived from fibre optics (2.0 dB/km at 850 nm, 0.4 at 1300, 0.30
 * at 1310, 0.17 at 1550); between those anchors the floor follows {@code 1/lambda^4} from the
 * nearest shorter anchor of the same kind, which errs on the low, that is the forgiving, side.
 */
public final class Glass {

  private Glass() {}

  /**
   * The lowest credible attenuation.
   *
   * @return dB/km; empty outside the range in which the anchors hold (multimode 800 to 1350 nm,
   *     single-mode 1260 to 1600 nm)
   */
  public static OptionalDouble floorDbPerKm(FibreKind kind, Wavelength wavelength) {
    int nm = wavelength.nm();
    return switch (kind) {
      case MULTIMODE -> {
        if (nm < 800 || nm > 1350) {
          yield OptionalDouble.empty();
        }
        yield OptionalDouble.of(
            nm < 1250
                ? Math.min(2.0, rayleigh(2.0, 850, nm))
                : Math.min(0.4, rayleigh(0.4, 1300, nm)));
      }
      case SINGLE_MODE -> {
        if (nm < 1260 || nm > 1600) {
          yield OptionalDouble.empty();
        }
        yield OptionalDouble.of(
            nm < 1500
                ? Math.min(0.30, rayleigh(0.30, 1310, nm))
                : Math.min(0.17, rayleigh(0.17, 1550, nm)));
      }
    };
  }

  /**
   * Rayleigh scattering scaled from one wavelength to another: {@code a (from/to)^4}.
   *
   * @param dbPerKm attenuation at {@code fromNm}, dB/km
   * @return dB/km at {@code toNm}
   */
  public static double rayleigh(double dbPerKm, double fromNm, double toNm) {
    double ratio = fromNm / toNm;
    return dbPerKm * ratio * ratio * ratio * ratio;
  }
}
