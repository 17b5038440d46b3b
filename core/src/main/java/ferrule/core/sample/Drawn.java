package ferrule.core.sample;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import java.util.List;

/**
 * A fibre to be read again.
 *
 * @param fibre which, and how it stands
 * @param why it is in the sample
 * @param stratum the part of the lot it stands for
 * @param compared the readings on record that are to be met again
 */
public record Drawn(FibreJudgement fibre, Why why, Stratum stratum, List<Compared> compared) {

  /** Why a fibre is in a sample. */
  public enum Why {
    /** The longest fibre of the lot. */
    LONGEST("longest"),
    /** The shortest. */
    NEAREST("nearest"),
    /** The one closest to its limit. */
    MARGINAL("least margin"),
    /** Drawn by lot from its part. */
    DRAWN("drawn");

    private final String word;

    Why(String word) {
      this.word = word;
    }

    /** For a reader and in JSON. */
    public String word() {
      return word;
    }
  }

  /**
   * A reading to be met.
   *
   * @param reading on record
   * @param toleranceDb most that a second reading may differ by, dB: two expanded uncertainties of
   *     a reading (k = 2) added in squares
   */
  public record Compared(AssessedReading reading, double toleranceDb) {}

  /** Copies the list. */
  public Drawn {
    compared = List.copyOf(compared);
  }

  Drawn because(Why reason) {
    return new Drawn(fibre, reason, stratum, compared);
  }
}
