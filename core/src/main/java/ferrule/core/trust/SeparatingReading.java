package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.util.List;
import java.util.Optional;

/**
 * One further reading that helps to tell two causes apart, with what either foretells it to be.
 *
 * @param fibre which fibre to read; empty if the test cords are to be read mated to one another
 * @param cords those cords, launch cord first; empty if a fibre is to be read
 * @param direction where the source stands
 * @param nm at which wavelength, nm
 * @param reference under which zero; empty for a new one, set and verified for it with other cords
 * @param firstDb what it reads if the first cause is true, dB
 * @param secondDb what it reads if the second is, dB
 * @param sdDb standard deviation of either foretelling, dB
 * @param minutes about how long it takes beside the readings named before it, {@link Handling}
 */
public record SeparatingReading(
    Optional<FibreId> fibre,
    List<String> cords,
    Direction direction,
    int nm,
    String reference,
    double firstDb,
    double secondDb,
    double sdDb,
    double minutes) {

  /** Copies the list. */
  public SeparatingReading {
    cords = List.copyOf(cords);
  }

  /** Between what either cause foretells, dB. */
  public double thresholdDb() {
    return (firstDb + secondDb) / 2;
  }

  /** "S012/3 at 1310 nm A-B under zero Z02". */
  public String where() {
    return fibre.map(FibreId::toString).orElseGet(() -> "cords " + String.join(" and ", cords))
        + " at "
        + nm
        + " nm "
        + direction.word()
        + " under "
        + (reference.isEmpty() ? "a new zero" : "zero " + reference);
  }

  /**
   * "Read S012/3 at 1310 nm A-B under zero Z02: 0.61 dB if it is ..., 0.43 dB if it is ...".
   *
   * @param first the first cause
   * @param second the second
   */
  public String shown(String first, String second) {
    return "Read "
        + where()
        + ": "
        + Decibels.shown(firstDb)
        + " dB if it is "
        + first
        + ", "
        + Decibels.shown(secondDb)
        + " dB if it is "
        + second
        + "; the line between is "
        + Decibels.shown(thresholdDb())
        + " dB";
  }
}
