package ferrule.core.isolation;

/**
 * How far readings scatter, and how that is known.
 *
 * @param basis how it is known
 * @param factor by which the standard deviations of the readings are to be multiplied
 * @param degrees degrees of freedom behind the factor; infinite unless it comes from residuals
 * @param readingDb standard deviation of a reading, the root of the mean square over all, dB
 */
public record Spread(Basis basis, double factor, double degrees, double readingDb) {

  /** How the spread of readings is known. */
  public enum Basis {
    /** From what the readings leave over beyond the ends' losses. */
    RESIDUALS("residuals"),
    /** As stated with each reading. */
    STATED("stated"),
    /** Assumed for at least one reading: {@value PathReading#ASSUMED_MATING_SD_DB} dB a mating. */
    ASSUMED("assumed");

    private final String word;

    Basis(String word) {
      this.word = word;
    }

    /** One word for a reader and for scripts. */
    public String word() {
      return word;
    }
  }

  /**
   * What a display step of 0.01 dB hides: rectangular, {@code 0.01/sqrt(12)} dB (JCGM 100:2008,
   * F.2.2.1). Readings that agree better than this agree by chance.
   */
  static final double DISPLAY_STEP_SD_DB = 0.01 / Math.sqrt(12);

  /**
   * The spread of readings.
   *
   * @param meanSquare of their standard deviations as given, dB squared
   * @param allStated whether each was stated
   * @param degrees readings beyond what was needed
   * @param chiSquare what they leave over
   */
  static Spread of(double meanSquare, boolean allStated, int degrees, double chiSquare) {
    double given = Math.sqrt(meanSquare);
    if (degrees == 0) {
      return new Spread(
          allStated ? Basis.STATED : Basis.ASSUMED, 1, Double.POSITIVE_INFINITY, given);
    }
    double factor = Math.max(Math.sqrt(chiSquare / degrees), DISPLAY_STEP_SD_DB / given);
    return new Spread(Basis.RESIDUALS, factor, degrees, factor * given);
  }
}
