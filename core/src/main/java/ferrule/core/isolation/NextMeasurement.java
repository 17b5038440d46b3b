package ferrule.core.isolation;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What to measure next, and what it brings.
 *
 * @param why for what
 * @param path what to mate
 * @param newZero whether the launch cord of this path launched none of the readings, so that a
 *     one-cord zero must first be set with it
 * @param furtherCord whether the path needs a cord that is not on record
 * @param tells ends that can be told after it and could not before
 * @param worst the end with the largest standard deviation among those told then, or undecided now,
 *     if any
 * @param sdNow its standard deviation now, dB; empty if it cannot be told now
 * @param sdThen its standard deviation after the measurement, dB; empty if nothing is told then
 * @param then further measurements until every end can be told, each chosen in the same way
 */
public record NextMeasurement(
    Why why,
    MatedPath path,
    boolean newZero,
    boolean furtherCord,
    List<EndId> tells,
    Optional<EndId> worst,
    OptionalDouble sdNow,
    OptionalDouble sdThen,
    List<MatedPath> then) {

  /** For what a measurement is made. */
  public enum Why {
    /** To tell ends that cannot be told. */
    TELL("tell"),
    /** To see whether a pair is special again. */
    REPEAT("repeat"),
    /** To decide about an end that lies near the limit. */
    DECIDE("decide");

    private final String word;

    Why(String word) {
      this.word = word;
    }

    /** One word for scripts. */
    public String word() {
      return word;
    }
  }

  /** Copies the lists. */
  public NextMeasurement {
    tells = List.copyOf(tells);
    then = List.copyOf(then);
  }
}
