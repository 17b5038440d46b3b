package ferrule.core.uncertainty;

/**
 * One contribution to the uncertainty of a loss reading.
 *
 * @param id name by which a job may override it: "source-drift"
 * @param what for a reader
 * @param law its law
 * @param size half width or standard deviation, dB; per km or per dB of loss if {@code scale} says
 *     so
 * @param sensitivity how often it enters, {@code sqrt(2)} for two readings
 * @param scale what the size grows with
 * @param degrees degrees of freedom
 * @param origin where the size comes from, for a reader
 */
public record Contribution(
    String id,
    String what,
    Law law,
    double size,
    double sensitivity,
    Scale scale,
    double degrees,
    String origin) {

  /** What a contribution grows with. */
  public enum Scale {
    /** The same for every reading; size in dB. */
    FIXED,
    /** Grows with the length; size in dB/km. */
    PER_KM,
    /** Grows with the loss; size is a share of it. */
    OF_LOSS
  }

  /** {@code c u} of this contribution for a link and a reading, dB. */
  public double product(double km, double lossDb) {
    double base = sensitivity * law.standardUncertainty(size);
    return switch (scale) {
      case FIXED -> base;
      case PER_KM -> base * km;
      case OF_LOSS -> base * Math.abs(lossDb);
    };
  }

  /** The same contribution with another size, set by the owner or by a certificate. */
  public Contribution withSize(double newSize, String newOrigin) {
    return new Contribution(id, what, law, newSize, sensitivity, scale, degrees, newOrigin);
  }
}
