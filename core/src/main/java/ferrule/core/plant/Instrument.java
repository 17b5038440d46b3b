package ferrule.core.plant;

import ferrule.core.optics.Wavelength;
import java.time.LocalDate;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * A source, a meter, or both in one case.
 *
 * @param id its name or serial number
 * @param kind what it does
 * @param wavelengths what it can do; empty if not on record
 * @param calibratedOn day of the calibration, if on record
 * @param calibrationDue last day on which it may be used, if on record
 */
public record Instrument(
    String id,
    Kind kind,
    SortedSet<Wavelength> wavelengths,
    Optional<LocalDate> calibratedOn,
    Optional<LocalDate> calibrationDue) {

  /** What an instrument does. */
  public enum Kind {
    /** Light source. */
    SOURCE("source"),
    /** Power meter. */
    METER("meter"),
    /** Both. */
    SOURCE_AND_METER("source+meter");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** As tables write it. */
    public String word() {
      return word;
    }

    /** Whether it can send light. */
    public boolean sends() {
      return this != METER;
    }

    /** Whether it can measure light. */
    public boolean measures() {
      return this != SOURCE;
    }

    /** The kind with this word, if there is one. */
    public static Optional<Kind> ofWord(String word) {
      for (Kind kind : values()) {
        if (kind.word.equalsIgnoreCase(word)) {
          return Optional.of(kind);
        }
      }
      return Optional.empty();
    }
  }

  /** Copies the set of wavelengths. */
  public Instrument {
    wavelengths = java.util.Collections.unmodifiableSortedSet(new TreeSet<>(wavelengths));
  }
}
