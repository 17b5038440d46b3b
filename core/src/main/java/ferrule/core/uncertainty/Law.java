package ferrule.core.uncertainty;

/** The law a contribution follows, and how its stated size becomes a standard uncertainty. */
public enum Law {
  /** Size is a standard deviation. */
  NORMAL("normal", 1),
  /** Size is the half width a: {@code u = a/sqrt(3)} (JCGM 100:2008, 4.3.7). */
  RECTANGULAR("rectangular", Math.sqrt(3)),
  /** Size is the half width a: {@code u = a/sqrt(6)} (JCGM 100:2008, 4.3.9). */
  TRIANGULAR("triangular", Math.sqrt(6)),
  /** U-shaped; size is the half width a: {@code u = a/sqrt(2)} (JCGM 101:2008, 6.4.6). */
  ARCSINE("arcsine", Math.sqrt(2));

  private final String word;
  private final double divisor;

  Law(String word, double divisor) {
    this.word = word;
    this.divisor = divisor;
  }

  /** The law's name. */
  public String word() {
    return word;
  }

  /** Standard uncertainty of a contribution of the given size, in the unit of the size. */
  public double standardUncertainty(double size) {
    return size / divisor;
  }
}
