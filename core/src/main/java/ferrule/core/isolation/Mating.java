package ferrule.core.isolation;

/**
 * Two cord ends mated through an adapter.
 *
 * @param first the end that the light leaves
 * @param second the end that it enters, of another cord
 */
public record Mating(EndId first, EndId second) {

  /**
   * @throws IllegalArgumentException for two ends of one cord
   */
  public Mating {
    if (first.cord().equals(second.cord())) {
      throw new IllegalArgumentException("Two ends of one cord: " + first + "+" + second);
    }
  }

  /** The same mating, passed the other way. */
  public Mating turned() {
    return new Mating(/* first= */ second, /* second= */ first);
  }

  /** The mating with its ends in the order of their names: one form for one pair. */
  public Mating pair() {
    return first.compareTo(second) <= 0 ? this : turned();
  }

  /** "L1/2+R1/1". */
  @Override
  public String toString() {
    return first + "+" + second;
  }
}
