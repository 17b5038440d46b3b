package ferrule.core.optics;

/** Rules for decibel values that are neither one loss nor one level. */
public final class Decibels {

  /** {@code 10 / ln 10}: dB per neper of power. */
  public static final double PER_NEPER = 10 / Math.log(10);

  private Decibels() {}

  /**
   * The bidirectional mean of two losses in dB. Losses are averaged in dB (the mean of the
   * log-transmittance), never as powers: averaging powers gives a smaller loss (Jensen).
   */
  public static LossDb mean(LossDb first, LossDb second) {
    return new LossDb((first.value() + second.value()) / 2);
  }

  /**
   * The sum of two powers given in dB against one reference (two reflectances, for example).
   *
   * @param first dB
   * @param second dB
   * @return dB
   */
  public static double powerSum(double first, double second) {
    return 10 * Math.log10(Math.pow(10, first / 10) + Math.pow(10, second / 10));
  }

  /**
   * The standard uncertainty in dB of a power known with a small relative standard uncertainty:
   * {@code u_dB = (10/ln 10) u_rel}, the derivative of {@code 10 lg P}.
   */
  public static double ofRelativeUncertainty(double relative) {
    return PER_NEPER * relative;
  }

  /** An attenuation coefficient in dB/km as a power coefficient in 1/km. */
  public static double toPerKm(double dbPerKm) {
    return dbPerKm / PER_NEPER;
  }

  /** Two decimals, and never "-0.00": the way a dB or dBm figure is shown to a reader. */
  public static String shown(double value) {
    if (!(Math.abs(value) < 1e12)) {
      return String.valueOf(value);
    }
    long hundredths = Math.round(value * 100);
    long size = Math.abs(hundredths);
    return (hundredths < 0 ? "-" : "") + size / 100 + (size % 100 < 10 ? ".0" : ".") + size % 100;
  }
}
