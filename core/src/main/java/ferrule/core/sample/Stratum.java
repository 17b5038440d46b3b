package ferrule.core.sample;

/**
 * A part of a lot that shares what may be wrong: where it ends, who read it, with which cord.
 *
 * @param place of end A; empty if not in the schedule
 * @param operator empty if not on record
 * @param cord launch cord of the readings; empty if not on record
 */
public record Stratum(String place, String operator, String cord) {

  /** "Frame A, read by AB with cord L1". */
  public String shown() {
    return (place.isEmpty() ? "place not named" : place)
        + ", read by "
        + (operator.isEmpty() ? "someone not on record" : operator)
        + " with "
        + (cord.isEmpty() ? "a cord not on record" : "cord " + cord);
  }
}
