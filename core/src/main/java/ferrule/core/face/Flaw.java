package ferrule.core.face;

/**
 * One flaw seen on an end face. Places are in micrometres from the cladding's centre, x to the
 * right and y down as in the picture.
 *
 * @param kind defect or scratch
 * @param xUm centroid of its pixels, µm
 * @param yUm centroid of its pixels, µm
 * @param lengthUm diameter of the smallest circle that encloses it, µm; for a scratch its length;
 *     above 0
 * @param widthUm its width across, µm; for a scratch the width that is graded; above 0 and no more
 *     than its length
 * @param sizeUncertaintyUm standard uncertainty of {@link #sizeUm()}, µm; 0 or more
 * @param contrast its level less the local level, as a share of the local level: below 0 where
 *     dark, above 0 where bright
 * @param nearestUm distance of its nearest point from the cladding's centre, µm; 0 or more
 * @param farthestUm distance of its farthest point from the cladding's centre, µm; no less than the
 *     nearest
 */
public record Flaw(
    FlawKind kind,
    double xUm,
    double yUm,
    double lengthUm,
    double widthUm,
    double sizeUncertaintyUm,
    double contrast,
    double nearestUm,
    double farthestUm) {

  /**
   * Refuses what no flaw can be.
   *
   * @throws IllegalArgumentException if a number is not finite or out of its range
   */
  public Flaw {
    if (!Double.isFinite(xUm) || !Double.isFinite(yUm) || !Double.isFinite(contrast)) {
      throw new IllegalArgumentException("place and contrast of a flaw are finite");
    }
    if (!(widthUm > 0 && lengthUm >= widthUm && Double.isFinite(lengthUm))) {
      throw new IllegalArgumentException(
          "width " + widthUm + " is not above 0 and at most the length " + lengthUm);
    }
    if (!(sizeUncertaintyUm >= 0 && Double.isFinite(sizeUncertaintyUm))) {
      throw new IllegalArgumentException("uncertainty " + sizeUncertaintyUm + " is below 0");
    }
    if (!(nearestUm >= 0 && farthestUm >= nearestUm && Double.isFinite(farthestUm))) {
      throw new IllegalArgumentException(
          "distances " + nearestUm + " to " + farthestUm + " are not in order from 0");
    }
  }

  /** The same, with its nearest point at this distance from the centre if that is nearer, µm. */
  public Flaw reaching(double um) {
    return new Flaw(
        kind,
        xUm,
        yUm,
        lengthUm,
        widthUm,
        sizeUncertaintyUm,
        contrast,
        Math.min(nearestUm, um),
        farthestUm);
  }

  /**
   * The size that criteria speak of, µm: of a defect the diameter of the smallest circle that
   * encloses it, of a scratch its width (both from memory of IEC 61300-3-35: confirm against the
   * standard).
   */
  public double sizeUm() {
    return kind == FlawKind.SCRATCH ? widthUm : lengthUm;
  }
}
