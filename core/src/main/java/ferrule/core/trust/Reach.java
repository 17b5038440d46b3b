package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
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
    // Fibres are told apart by their slots, which is much faster than by their ids.
    int least = Integer.MAX_VALUE;
    for (AssessedReading reading : readings) {
      if (reading.slot() >= 0) {
        least = Math.min(least, reading.slot());
      }
    }
    BitSet slots = new BitSet();
    Set<FibreId> unscheduled = new HashSet<>();
    List<FibreId> fibres = new ArrayList<>();
    int last = -1;
    for (AssessedReading reading : readings) {
      int slot = reading.slot();
      if (slot < 0) {
        FibreId fibre = reading.reading().fibreId();
        if (unscheduled.add(fibre)) {
          fibres.add(fibre);
        }
      } else if (slot != last && !slots.get(slot - least)) {
        slots.set(slot - least);
        fibres.add(reading.reading().fibreId());
        last = slot;
      }
    }
    return new Reach(readings, fibres);
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
