package ferrule.app.desk.page;

import ferrule.core.entry.PortRound;
import ferrule.core.trust.Doubt;
import ferrule.core.zero.Zero;
import ferrule.record.chart.LossScale;
import java.util.List;
import java.util.Optional;

/**
 * Readings typed at a port.
 *
 * @param frame what surrounds it
 * @param job tells this job from every other; empty if the desk only reads
 * @param setup what stays the same
 * @param places to choose from
 * @param zeros to choose from, the one set last first
 * @param round the fibres at this place
 * @param otherZero how many fibres here are open but have no level in the zero in force
 * @param form the fibre being read; empty if every fibre here is read, or nothing was begun
 * @param coming forms of the fibres after it, for a browser that cannot reach the desk
 * @param stored the fibre whose readings were just stored
 * @param storedReadings those readings
 * @param last readings typed last, the newest first
 */
public record EnterPage(
    Frame frame,
    String job,
    EnterSetup setup,
    List<String> places,
    List<Zero> zeros,
    Optional<PortRound> round,
    long otherZero,
    Optional<FibreForm> form,
    List<FibreForm> coming,
    Optional<FibreEntry> stored,
    List<EnteredReading> storedReadings,
    List<EnteredReading> last) {

  /** Fibres shown in the list of those to come. */
  public static final int COMING_SHOWN = 12;

  /** Copies the lists. */
  public EnterPage {
    places = List.copyOf(places);
    zeros = List.copyOf(zeros);
    coming = List.copyOf(coming);
    storedReadings = List.copyOf(storedReadings);
    last = List.copyOf(last);
  }

  /** The scale of the stored fibre's strips. */
  public Optional<LossScale> scale() {
    return stored.map(fibre -> FibreEntry.scale(List.of(fibre)));
  }

  /** What those readings are doubted for, each doubt once. */
  public List<Doubt> storedDoubts() {
    return storedReadings.stream().flatMap(e -> e.doubts().stream()).distinct().toList();
  }

  /** How many fibres here are still to be read in this direction. */
  public long open() {
    return round.map(PortRound::openCount).orElse(0L);
  }

  /** "Z07, set 2026-03-04 08:15". */
  public static String zeroInWords(Zero zero) {
    return zero.id() + ", " + zero.method().word() + ", set " + Show.time(zero.setAt()) + " UTC";
  }
}
