package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.face.Examined;
import java.util.Locale;
import java.util.OptionalDouble;

/** From a picture of one fibre's end face to what is seen on it. */
public final class FaceExaminer {
  /** Diameter of a fibre's cladding, µm: the scale where no other is given. */
  public static final double CLADDING_UM = 125;

  private FaceExaminer() {}

  /**
   * Examines a picture.
   *
   * @param grey the picture
   * @param smallestUm the smallest flaw that must be seen, µm
   * @param umPerPx calibrated scale, if there is one; else the cladding gives it
   */
  public static Examined.Face examine(Grey grey, double smallestUm, OptionalDouble umPerPx) {
    CladdingFinder.Result result = new CladdingFinder(grey).find();
    if (result instanceof CladdingFinder.Missing missing) {
      return new Examined.Unreadable(missing.reason());
    }
    return seen(grey, (CladdingFinder.Found) result, smallestUm, umPerPx);
  }

  /** Examines the face about an edge that was found. */
  static Examined.Face seen(
      Grey grey, CladdingFinder.Found found, double smallestUm, OptionalDouble umPerPx) {
    Cladding edge = found.edge();
    double scale = CLADDING_UM / 2 / edge.rPx();
    if (umPerPx.isPresent()) {
      double given = umPerPx.getAsDouble();
      if (Math.abs(given / scale - 1) > 0.06) {
        return new Examined.Unreadable(
            String.format(
                Locale.ROOT,
                "the round edge is %.0f µm across at the scale given, a cladding is 125 µm",
                2 * edge.rPx() * given));
      }
      scale = given;
    }
    double x = scale * edge.rPx() / edge.rxPx();
    double y = scale * edge.rPx() / edge.ryPx();
    double resolvable = Math.max(2 * Math.max(x, y), 2.355 * found.blurPx() * scale * 0.8);
    if (resolvable > smallestUm) {
      return new Examined.Unreadable(
          String.format(
              Locale.ROOT,
              "pixel and blur show %.1f µm at best, %.1f µm must be seen",
              resolvable,
              smallestUm));
    }
    double shown =
        2
            * Math.min(
                Math.min(edge.cx() + 0.5, grey.width() - 0.5 - edge.cx()) * x,
                Math.min(edge.cy() + 0.5, grey.height() - 0.5 - edge.cy()) * y);
    return new Examined.Seen(
        edge,
        x,
        y,
        resolvable,
        Math.max(0, shown),
        new FlawFinder(new FaceFrame(grey, edge, found.blurPx(), x, y)).find());
  }
}
