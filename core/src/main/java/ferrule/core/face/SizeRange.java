package ferrule.core.face;

/**
 * Sizes that one row of criteria speaks of.
 *
 * @param lowUm lower end, µm; 0 or more
 * @param lowIncluded whether a size equal to the lower end is meant
 * @param highUm upper end, µm; infinite if there is none
 * @param highIncluded whether a size equal to the upper end is meant
 */
public record SizeRange(double lowUm, boolean lowIncluded, double highUm, boolean highIncluded) {

  /**
   * Refuses what holds no size.
   *
   * @throws IllegalArgumentException if the ends are not in order from 0
   */
  public SizeRange {
    if (!(lowUm >= 0 && highUm > lowUm && Double.isFinite(lowUm))) {
      throw new IllegalArgumentException("sizes " + lowUm + " to " + highUm);
    }
  }

  /** Whether a size is meant. */
  public boolean contains(double sizeUm) {
    boolean above = lowIncluded ? sizeUm >= lowUm : sizeUm > lowUm;
    boolean below = highIncluded ? sizeUm <= highUm : sizeUm < highUm;
    return above && below;
  }

  /** Whether the sizes of another begin exactly where these end: no size twice, none left out. */
  boolean isFollowedBy(SizeRange next) {
    return next.lowUm == highUm && next.lowIncluded != highIncluded;
  }

  /** " over 5 µm", " of 2 to 5 µm", " below 2 µm"; empty for any size. */
  public String shown() {
    String high = Microns.plain(highUm);
    if (lowUm == 0) {
      return Double.isInfinite(highUm) ? "" : (highIncluded ? " up to " : " below ") + high + " µm";
    }
    String low = Microns.plain(lowUm);
    if (Double.isInfinite(highUm)) {
      return (lowIncluded ? " of " + low + " µm and more" : " over " + low + " µm");
    }
    return (lowIncluded ? " of " : " over ")
        + low
        + (highIncluded ? " to " : " to below ")
        + high
        + " µm";
  }
}
