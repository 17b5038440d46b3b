package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.face.Examined;
import java.util.OptionalDouble;

/**
 * Tells a picture of a row of fibres from that of one. A grade of one of them would be taken for
 * the whole ferrule's.
 */
public final class NeighbourCheck {

  /** From fibre to fibre in a ferrule with a row of them, µm (common practice, no source). */
  private static final double PITCH_UM = 250;

  /** Half a window about a place, in radii of the cladding: it reaches no neighbour's edge. */
  private static final double WINDOW = 1.9;

  private NeighbourCheck() {}

  /**
   * Whether another cladding of the same size lies one pitch beside the one found, across or down.
   * Places that the picture does not wholly show do not count.
   */
  public static boolean showsRow(Grey grey, Examined.Seen seen) {
    Cladding edge = seen.cladding();
    double across = PITCH_UM / seen.umPerPxX();
    double down = PITCH_UM / seen.umPerPxY();
    return cladding(grey, edge, edge.cx() - across, edge.cy())
        || cladding(grey, edge, edge.cx() + across, edge.cy())
        || cladding(grey, edge, edge.cx(), edge.cy() - down)
        || cladding(grey, edge, edge.cx(), edge.cy() + down);
  }

  private static boolean cladding(Grey grey, Cladding like, double cx, double cy) {
    double r = like.rPx();
    if (cx < 1.1 * r
        || cy < 1.1 * r
        || cx > grey.width() - 1 - 1.1 * r
        || cy > grey.height() - 1 - 1.1 * r) {
      return false;
    }
    int left = (int) Math.max(0, cx - WINDOW * r);
    int top = (int) Math.max(0, cy - WINDOW * r);
    int width = (int) Math.min(grey.width(), cx + WINDOW * r) - left;
    int height = (int) Math.min(grey.height(), cy + WINDOW * r) - top;
    float[] part = new float[width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        part[y * width + x] = grey.at(left + x, top + y);
      }
    }
    // Any resolution will do: whether there is a fibre is asked, not what lies on it.
    Examined.Face face =
        FaceExaminer.examine(new Grey(width, height, part), 1000, OptionalDouble.empty());
    return face instanceof Examined.Seen found
        && Math.abs(found.cladding().rPx() / r - 1) < 0.06
        && Math.hypot(found.cladding().cx() + left - cx, found.cladding().cy() + top - cy)
            < 0.6 * r;
  }
}
