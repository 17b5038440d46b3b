package ferrule.core.optics;

/**
 * Attenuation of fibre against wavelength, with its slope and curvature: what a source away from
 * its nominal wavelength costs.
 *
 * <p>Single-mode: {@code a = A/l^4 + B + C exp(-D/l)}, l in µm, dB/km (form: Walker 1986, J.
 * Lightwave Technology 4, 1125). Default low-water-peak set A = 0.92, B = 0.018, C = 7.81e11, D =
 * 48.48 (assumed, not a property of any fibre). Multimode: {@code a = 1.10/l^4 + 0.20} dB/km
 * (assumed).
 *
 * <p>Valid from 800 to 1350 nm (multimode) and 1260 to 1650 nm (single-mode); outside it still
 * answers, and is only as good as the formula.
 */
public final class GlassModel {

  private static final double C = 7.81e11;
  private static final double D = 48.48;

  private GlassModel() {}

  private static double rayleigh(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? 0.92 : 1.10;
  }

  private static double floor(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? 0.018 : 0.20;
  }

  private static double infrared(FibreKind kind, double um) {
    return kind == FibreKind.SINGLE_MODE ? C * Math.exp(-D / um) : 0;
  }

  /** Attenuation, dB/km. */
  public static double dbPerKm(FibreKind kind, Wavelength wavelength) {
    double um = wavelength.nm() / 1000.0;
    return rayleigh(kind) / Math.pow(um, 4) + floor(kind) + infrared(kind, um);
  }

  /** Slope, dB/km per nm. */
  public static double slopePerNm(FibreKind kind, Wavelength wavelength) {
    double um = wavelength.nm() / 1000.0;
    double perUm = -4 * rayleigh(kind) / Math.pow(um, 5) + infrared(kind, um) * D / (um * um);
    return perUm / 1e3;
  }

  /** Curvature, dB/km per nm squared. */
  public static double curvaturePerNm2(FibreKind kind, Wavelength wavelength) {
    double um = wavelength.nm() / 1000.0;
    double perUm2 =
        20 * rayleigh(kind) / Math.pow(um, 6)
            + infrared(kind, um) * (D * D / Math.pow(um, 4) - 2 * D / Math.pow(um, 3));
    return perUm2 / 1e6;
  }
}
