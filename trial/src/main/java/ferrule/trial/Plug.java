package ferrule.trial;

/**
 * One polished single-mode end: how far its core lies from the ferrule's axis, how it is tilted,
 * and its mode field.
 *
 * @param xUm eccentricity of the core, µm
 * @param yUm across it, µm
 * @param tiltXRad tilt, radians
 * @param tiltYRad across it
 * @param mfd1310Um mode-field diameter at 1310 nm, µm
 */
record Plug(double xUm, double yUm, double tiltXRad, double tiltYRad, double mfd1310Um) {

  /** A perfect one. */
  static final Plug IDEAL = new Plug(0, 0, 0, 0, Physics.MFD_1310_UM);

  /**
   * How well plugs are made. Eccentricities put 97 % of like pairs within the grade's limit at 1310
   * nm; tilt and mode-field scatter are assumed.
   */
  enum Grade {
    /** Reference plug of a test cord: pairs within 0.1 dB. */
    R1(0.1825, 0.05, 0.0667),
    /** Good installed plug: pairs within 0.25 dB. */
    B(0.2841, 0.10, 0.1333);

    private final double eccentricityUm;
    private final double tiltDeg;
    private final double mfdUm;

    Grade(double eccentricityUm, double tiltDeg, double mfdUm) {
      this.eccentricityUm = eccentricityUm;
      this.tiltDeg = tiltDeg;
      this.mfdUm = mfdUm;
    }

    /** One plug of this grade. */
    Plug draw(Dice dice) {
      double tilt = Math.toRadians(tiltDeg);
      return new Plug(
          dice.normal(0, eccentricityUm),
          dice.normal(0, eccentricityUm),
          dice.normal(0, tilt),
          dice.normal(0, tilt),
          dice.normal(Physics.MFD_1310_UM, mfdUm));
    }
  }
}
