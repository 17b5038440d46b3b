package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The exact set of readings that a doubt covers; and fibres it covers that have no reading to name.
 *
 * <p>Only readings that count are covered: an attempt that a later one replaced decides nothing.
 *
 * @param readings covered readings, in the order handed in
 * @param fibres all fibres touched, scheduled or not, each once
 */
public record Reach(List<AssessedReading> readings, List<FibreId> fibres) {

  /** Nothing. */
  public static final Reach NOTHING = new Reach(List.of(), List.of());

  /** Copies the lists. */
  public Reach {
    readings = List.copyOf(readings);
    fibres = List.copyOf(fibres);
  }

  /** The reach of some readings. */
  public static Reach of(List<AssessedReading> readings) {
    Set<FibreId> fibres = new LinkedHashSet<>();
    for (AssessedReading reading : readings) {
      fibres.add(reading.reading().fibreId());
    }
    return new Reach(readings, new ArrayList<>(fibres));
  }

  /** Fibres without readings to name. */
  public static Reach ofFibres(List<FibreId> fibres) {
    return new Reach(List.of(), fibres);
  }

  /** Whether nothing is covered. */
  public boolean isEmpty() {
    return readings.isEmpty() && fibres.isEmpty();
  }
}
