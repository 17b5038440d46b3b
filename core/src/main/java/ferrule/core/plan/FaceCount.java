package ferrule.core.plan;

import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;

/**
 * End faces to look at, counted by fibre.
 *
 * <p>Each fibre has two faces at the link and meets two at the test cords: 8 for a duplex link. If
 * the cords change ends for the second direction, both are mated anew and looked at again: 12. A
 * row of fibres in one ferrule counts each fibre. Worked out, no standard.
 *
 * @param linkFaces faces of the link's own ends
 * @param cordFaces faces of test cords before they are mated with the link
 * @param secondDirection further faces of test cords if they change ends for the second direction
 */
public record FaceCount(long linkFaces, long cordFaces, long secondDirection) {

  /** None. */
  public static final FaceCount NONE = new FaceCount(0, 0, 0);

  /** Fibres in one array ferrule, unless a link has fewer. */
  static final int ROW = 12;

  /** The faces of a link. */
  public static FaceCount of(Link link) {
    long each = 2L * link.fibres();
    return new FaceCount(each, each, each);
  }

  /** Both counted together. */
  public FaceCount plus(FaceCount other) {
    return new FaceCount(
        linkFaces + other.linkFaces,
        cordFaces + other.cordFaces,
        secondDirection + other.secondDirection);
  }

  /** All of them in so many directions, 1 or 2. */
  public long total(int passes) {
    return linkFaces + cordFaces + (passes == 2 ? secondDirection : 0);
  }

  /** Faces, or whole ferrules where an end is an array, that must be looked at for one link end. */
  static int looks(Link link, LinkEnd end) {
    return end.connector().isArray() ? rows(link) : link.fibres();
  }

  /** Rows of twelve fibres, or of fewer. */
  static int rows(Link link) {
    return (link.fibres() + ROW - 1) / ROW;
  }
}
