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
}
