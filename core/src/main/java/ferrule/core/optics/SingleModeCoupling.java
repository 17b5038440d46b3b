package ferrule.core.optics;

/**
 * Loss where two single-mode fibres of equal mode field meet, in the Gaussian approximation.
 *
 * <p>Source: Marcuse, D. (1977), "Loss analysis of single-mode fiber splices", Bell System
 * Technical Journal 56, 703-718. The mode-field diameters are nominal: 9.2 µm at 1310 nm and 10.4
 * µm at 1550 nm, ITU-T G.652/G.657.A class fibre.
 *
 * <p>Valid for small misalignment (offset below the mode-field radius) and equal fields.
 */
public final class SingleModeCoupling {

  /** Nominal mode-field diameter at 1310 nm, µm. */
  public static final double MFD_1310_UM = 9.2;

  /** Nominal mode-field diameter at 1550 nm, µm. */
  public static final double MFD_1550_UM = 10.4;

  /** Phase index of silica at 1310 nm. */
  private static final double SILICA_INDEX = 1.4468;

  private SingleModeCoupling() {}

  /**
   * Nominal mode-field diameter at a wavelength: linear between the two nominal values (and beyond
   * them), good to some tenths of a micrometre from 1260 to 1650 nm.
   *
   * @return µm
   */
  public static double modeFieldUm(Wavelength wavelength) {
    return MFD_1310_UM + (MFD_1550_UM - MFD_1310_UM) * (wavelength.nm() - 1310) / (1550.0 - 1310.0);
  }

  /**
   * Loss from a lateral offset: {@code A = (10/ln 10) (d/w)^2}, w half the mode-field diameter.
   *
   * @param offsetUm lateral offset, µm
   * @param modeFieldUm mode-field diameter, µm, above zero
   */
  public static LossDb offset(double offsetUm, double modeFieldUm) {
    double ratio = offsetUm / (modeFieldUm / 2);
    return new LossDb(Decibels.PER_NEPER * ratio * ratio);
  }

  /**
   * How a connection loss caused by lateral offset scales from 1310 nm to another wavelength: the
   * square of the ratio of mode-field diameters. 1 at 1310 nm, 1/1.278 at 1550 nm.
   */
  public static double offsetFactorFrom1310(Wavelength wavelength) {
    double ratio = MFD_1310_UM / modeFieldUm(wavelength);
    return ratio * ratio;
  }

  /**
   * How a connection loss caused by tilt scales from 1310 nm to another wavelength: {@code A =
   * (10/ln 10) (pi n w theta/lambda)^2}, so with {@code (w/lambda)^2}. 1 at 1310 nm, 1/1.096 at
   * 1550 nm.
   */
  public static double tiltFactorFrom1310(Wavelength wavelength) {
    double ratio = modeFieldUm(wavelength) / MFD_1310_UM * 1310 / wavelength.nm();
    return ratio * ratio;
  }

  /**
   * Loss by spreading of the beam over an air gap between equal fields, without reflections: {@code
   * A = 10 lg(1 + (z/(2 zR))^2)}, {@code zR = pi w^2/lambda} (Marcuse 1977).
   *
   * @param gapUm gap, µm, 0 or more
   * @param modeFieldUm mode-field diameter, µm, above zero
   */
  public static LossDb gapSpreading(double gapUm, double modeFieldUm, Wavelength wavelength) {
    double lambda = wavelength.nm() / 1000.0;
    double w = modeFieldUm / 2;
    double ratio = gapUm * lambda / (2 * Math.PI * w * w);
    return new LossDb(10 * Math.log10(1 + ratio * ratio));
  }

  /**
   * Loss by the two glass faces of an air gap, which make a cavity: {@code A = 10 lg(1 + F sin^2(2
   * pi z/lambda))}, {@code F = 4R/(1-R)^2}, {@code R = ((n-1)/(n+1))^2} with the phase index of
   * silica at 1310 nm, n = 1.4468 (Airy function). From 0 to 0.58 dB, with a period of half a
   * wavelength of gap. A source of some width averages {@code sin^2} over its (flat) spectrum,
   * which takes the ripple away once the gap exceeds {@code lambda^2/(2 width)}.
   *
   * @param gapUm gap, µm, 0 or more
   * @param widthNm full width of the source's spectrum, nm; 0 for a laser
   */
  public static LossDb gapReflection(double gapUm, Wavelength wavelength, double widthNm) {
    double reflectance = (SILICA_INDEX - 1) / (SILICA_INDEX + 1);
    reflectance *= reflectance;
    double finesse = 4 * reflectance / ((1 - reflectance) * (1 - reflectance));
    double lambda = wavelength.nm() / 1000.0;
    double x = 2 * Math.PI * gapUm * widthNm / 1000 / (lambda * lambda);
    double contrast = Math.abs(x) < 1e-9 ? 1 : Math.sin(x) / x;
    double square = (1 - contrast * Math.cos(4 * Math.PI * gapUm / lambda)) / 2;
    return new LossDb(10 * Math.log10(1 + finesse * square));
  }
}
