package ferrule.trial;

/**
 * What light loses, from closed forms. Written apart from core, so that an error in one shows
 * against the other.
 */
final class Physics {

  /** Decibels in a neper of power: {@code 10 / ln 10}. */
  private static final double K = 10 / Math.log(10);

  /**
   * Group index of the facts' check values for tilt inside glass (n = 1.4677); its error enters
   * tilt only.
   */
  static final double GLASS_INDEX = 1.4677;

  /** Mode-field diameters of the check values, µm, at 1310 and 1550 nm. */
  static final double MFD_1310_UM = 9.2;

  static final double MFD_1550_UM = 10.4;

  private Physics() {}

  /**
   * Loss between two single-mode ends, dB: two Gaussian fields with an offset, a tilt and a gap
   * (Nemoto and Makimoto 1979, Opt. Quantum Electron. 11, 447; without a gap Marcuse 1977, Bell
   * Syst. Tech. J. 56, 703).
   *
   * @param w1Um field radius (1/e² of intensity) of the first end, µm
   * @param w2Um of the second
   * @param lambdaUm wavelength in vacuum, µm
   * @param n index of what lies between
   * @param offsetUm lateral, µm
   * @param tiltRad positive if it turns towards the offset
   * @param gapUm along the axis, µm
   */
  static double couplingDb(
      double w1Um,
      double w2Um,
      double lambdaUm,
      double n,
      double offsetUm,
      double tiltRad,
      double gapUm) {
    double lambda = lambdaUm / n;
    double a = w1Um * w1Um;
    double b = w2Um * w2Um;
    double spread = lambda * gapUm / Math.PI;
    double kappa = 4 * a * b / ((a + b) * (a + b) + spread * spread);
    double rayleigh = Math.PI * a / lambda;
    double widened = a * (1 + gapUm * gapUm / (rayleigh * rayleigh));
    double exponent =
        offsetUm * offsetUm / 2 * (1 / a + 1 / b)
            + Math.PI * Math.PI * tiltRad * tiltRad * (widened + b) / (2 * lambda * lambda)
            - offsetUm * tiltRad * gapUm / a;
    return K * (kappa * exponent - Math.log(kappa));
  }

  /** Loss of two single-mode plugs mated without a gap, dB, at 1310 or 1550 nm. */
  static double matedDb(Plug one, Plug other, boolean at1550) {
    double nominal = at1550 ? MFD_1550_UM : MFD_1310_UM;
    double scale = nominal / MFD_1310_UM / 2;
    double offset = Math.hypot(one.xUm() - other.xUm(), one.yUm() - other.yUm());
    double tilt = Math.hypot(one.tiltXRad() - other.tiltXRad(), one.tiltYRad() - other.tiltYRad());
    return couplingDb(
        one.mfd1310Um() * scale,
        other.mfd1310Um() * scale,
        at1550 ? 1.55 : 1.31,
        GLASS_INDEX,
        offset,
        tilt,
        0);
  }

  /**
   * Loss of the two glass faces of an air gap, dB: a cavity, {@code 1 + F sin^2(2 pi z/lambda)}
   * with {@code F = 4R/(1-R)^2} (Airy); for a wide source averaged over a flat spectrum.
   *
   * @param gapUm gap
   * @param lambdaUm centre wavelength
   * @param widthUm full width of the spectrum, 0 for a laser
   */
  static double cavityDb(double gapUm, double lambdaUm, double widthUm) {
    double r = Math.pow((1.4468 - 1) / (1.4468 + 1), 2);
    double f = 4 * r / ((1 - r) * (1 - r));
    int lines = widthUm == 0 ? 1 : 41;
    double power = 0;
    for (int i = 0; i < lines; i++) {
      double lambda = lambdaUm + (lines == 1 ? 0 : widthUm * (i / (lines - 1.0) - 0.5));
      double sine = Math.sin(2 * Math.PI * gapUm / lambda);
      power += 1 / (1 + f * sine * sine) / lines;
    }
    return -10 * Math.log10(power);
  }
}
