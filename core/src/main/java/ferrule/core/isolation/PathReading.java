package ferrule.core.isolation;

import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The loss of one mated path, under a one-cord zero.
 *
 * @param path what was mated
 * @param loss sum of the losses of the mated ends
 * @param wavelength if on record
 * @param sdDb standard deviation of the reading as stated, dB, above 0; empty if not stated
 * @param measuredAt if on record
 */
public record PathReading(
    MatedPath path,
    LossDb loss,
    Optional<Wavelength> wavelength,
    OptionalDouble sdDb,
    Optional<Instant> measuredAt) {

  /**
   * Repeatability of one mating, dB: assumed, the size of the contribution "re-mating" in the
   * uncertainty budget.
   */
  public static final double ASSUMED_MATING_SD_DB = 0.02;

  /**
   * @throws IllegalArgumentException for a standard deviation that is not above 0 and finite
   */
  public PathReading {
    if (sdDb.isPresent() && !(sdDb.getAsDouble() > 0 && sdDb.getAsDouble() < 1e6)) {
      throw new IllegalArgumentException("A standard deviation must be above 0 dB");
    }
  }

  /** Standard deviation, dB: the stated one, or else the assumed one for its matings. */
  public double sd() {
    return sdDb.orElse(ASSUMED_MATING_SD_DB * Math.sqrt(path.matings().size()));
  }
}
