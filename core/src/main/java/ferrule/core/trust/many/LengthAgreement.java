package ferrule.core.trust.many;

/**
 * How far a measured length may lie from the scheduled one: 2 m + 2 %. Fibre is longer than cable
 * by up to some 2 %, and schedules round (common practice, no source).
 */
public final class LengthAgreement {

  private static final double FIXED_M = 2;
  private static final double SHARE = 0.02;

  private LengthAgreement() {}

  /** The most that the two may differ by, metres. */
  public static double allowedM(double scheduledM) {
    return FIXED_M + SHARE * scheduledM;
  }

  /** Whether a measured length disagrees with a scheduled one; both in metres. */
  public static boolean disagrees(double measuredM, double scheduledM) {
    return Math.abs(measuredM - scheduledM) > allowedM(scheduledM);
  }
}
