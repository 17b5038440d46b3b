package ferrule.core.optics;

/**
 * A nominal wavelength in vacuum.
 *
 * @param nm whole nanometres, 600 to 1700
 */
public record Wavelength(int nm) implements Comparable<Wavelength> {

  /** Shortest wavelength accepted, nm. */
  public static final int SHORTEST_NM = 600;

  /** Longest wavelength accepted, nm. */
  public static final int LONGEST_NM = 1700;

  /**
   * @throws IllegalArgumentException outside 600 to 1700 nm
   */
  public Wavelength {
    if (nm < SHORTEST_NM || nm > LONGEST_NM) {
      throw new IllegalArgumentException(
          "A wavelength must lie from 600 to 1700 nm, not at " + nm + " nm");
    }
  }

  @Override
  public int compareTo(Wavelength other) {
    return Integer.compare(nm, other.nm);
  }

  @Override
  public String toString() {
    return nm + " nm";
  }
}
