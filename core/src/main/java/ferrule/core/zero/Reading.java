package ferrule.core.zero;

import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.time.Instant;

/**
 * One loss value of one fibre, wavelength and direction, taken under one zero, as it was handed in.
 *
 * <p>Absent numbers are {@code NaN}, to keep hundreds of thousands of readings small; {@link
 * #hasPower()} and its fellows ask.
 *
 * @param link id of the link
 * @param fibre number of the fibre, from 1
 * @param direction where the source stood
 * @param wavelength nominal wavelength
 * @param powerDbm level read, dBm; NaN if not handed in
 * @param lossDb loss read, dB; NaN if not handed in. Power or loss is always there
 * @param lengthM length measured, metres; NaN if not handed in
 * @param reference id of the zero
 * @param measuredAt when
 * @param operator who; empty if not on record
 */
public record Reading(
    String link,
    int fibre,
    Direction direction,
    Wavelength wavelength,
    double powerDbm,
    double lossDb,
    double lengthM,
    String reference,
    Instant measuredAt,
    String operator) {

  /**
   * Power and loss of one reading may differ by this much, dB, before they contradict each other.
   */
  public static final double POWER_LOSS_AGREEMENT_DB = 0.02;

  /**
   * @throws IllegalArgumentException without power and without loss, or with an infinite number
   */
  public Reading {
    if (Double.isNaN(powerDbm) && Double.isNaN(lossDb)) {
      throw new IllegalArgumentException("A reading needs a power or a loss");
    }
    if (Double.isInfinite(powerDbm) || Double.isInfinite(lossDb) || Double.isInfinite(lengthM)) {
      throw new IllegalArgumentException("A reading's numbers must be finite");
    }
  }

  /** Which fibre was read. */
  public FibreId fibreId() {
    return new FibreId(link, fibre);
  }

  /** Whether it was taken in a direction at a wavelength. */
  public boolean isOfCase(Direction ofDirection, Wavelength at) {
    return direction == ofDirection && wavelength.equals(at);
  }

  /** Whether a level was handed in. */
  public boolean hasPower() {
    return !Double.isNaN(powerDbm);
  }

  /** Whether a loss was handed in. */
  public boolean hasLoss() {
    return !Double.isNaN(lossDb);
  }

  /** Whether a length was handed in. */
  public boolean hasLength() {
    return !Double.isNaN(lengthM);
  }

  /**
   * Whether power and loss, both handed in, contradict each other under a zero that stored the
   * given power. A hair of arithmetic noise is allowed for.
   *
   * @param zeroPowerDbm power stored by the zero, dBm
   */
  public boolean contradicts(double zeroPowerDbm) {
    return hasPower()
        && hasLoss()
        && Math.abs(zeroPowerDbm - powerDbm - lossDb) > POWER_LOSS_AGREEMENT_DB + 1e-9;
  }
}
