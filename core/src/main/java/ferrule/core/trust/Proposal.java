package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Where the fibres in reach of a shifted zero would stand if its estimated shift were taken out of
 * the readings. It replaces nothing: no reading, no decision, no standing. Only a verification or a
 * retest settles the doubt.
 *
 * @param reference the zero
 * @param shiftDb how far its readings lie above what the job's other readings say, dB
 * @param shiftSdDb standard deviation, dB
 * @param fibres the scheduled fibres in reach, in the order of the schedule
 */
public record Proposal(String reference, double shiftDb, double shiftSdDb, List<WouldBe> fibres) {

  /**
   * One fibre.
   *
   * @param fibre which
   * @param standing where it would stand
   */
  public record WouldBe(FibreId fibre, Standing standing) {}

  /** Copies the list. */
  public Proposal {
    fibres = List.copyOf(fibres);
  }

  /** How many fibres would stand where. */
  public Map<Standing, Integer> totals() {
    Map<Standing, Integer> totals = new EnumMap<>(Standing.class);
    for (Standing standing : Standing.values()) {
      totals.put(standing, 0);
    }
    for (WouldBe fibre : fibres) {
      totals.merge(fibre.standing(), 1, Integer::sum);
    }
    return totals;
  }
}
