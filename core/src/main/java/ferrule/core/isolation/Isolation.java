package ferrule.core.isolation;

import ferrule.core.optics.Wavelength;
import java.util.List;
import java.util.Optional;

/**
 * What the readings at one wavelength say about each cord end.
 *
 * @param wavelength if on record
 * @param limit what one end may lose
 * @param readings in one order, whatever the order they came in
 * @param rank how many independent sums of ends they tell
 * @param spread how far they scatter
 * @param fit whether sums of ends explain them; empty if no reading is left over to show it
 * @param ends every end on record, in the order of their names
 * @param groups ends that cannot be told, but whose differences can: each group at least two
 * @param sums sums that can be told of ends that cannot
 * @param specialPairs if the fit does not hold: the pair that explains most of it, or several that
 *     explain it equally well; empty if no single pair does
 * @param next empty if nothing more is needed
 */
public record Isolation(
    Optional<Wavelength> wavelength,
    EndLimit limit,
    List<PathReading> readings,
    int rank,
    Spread spread,
    Optional<Fit> fit,
    List<EndFinding> ends,
    List<List<EndId>> groups,
    List<ToldSum> sums,
    List<SpecialPair> specialPairs,
    Optional<NextMeasurement> next) {

  /** Copies the lists. */
  public Isolation {
    readings = List.copyOf(readings);
    ends = List.copyOf(ends);
    groups = List.copyOf(groups);
    sums = List.copyOf(sums);
    specialPairs = List.copyOf(specialPairs);
  }

  /** How many ends are in a state. */
  public long count(EndState state) {
    return ends.stream().filter(end -> end.state() == state).count();
  }

  /** Whether every end is told and in order, and the readings are sums of ends. */
  public boolean allInOrder() {
    return count(EndState.IN_ORDER) == ends.size() && fitHolds();
  }

  /** Whether nothing speaks against readings that are sums of ends. */
  public boolean fitHolds() {
    return fit.isEmpty() || fit.get().holds();
  }
}
