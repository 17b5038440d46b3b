package ferrule.vision;

import ferrule.core.face.Cladding;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * Part of a picture.
 *
 * @param left column of the picture that it begins at
 * @param top row of the picture that it begins at
 * @param grey its pixels
 */
record Window(int left, int top, Grey grey) {

  /** The part about a place, as far as the picture reaches. */
  static Window about(Grey picture, double x, double y, double halfX, double halfY) {
    int left = (int) Math.max(0, x - halfX);
    int top = (int) Math.max(0, y - halfY);
    int width = (int) Math.min(picture.width(), x + halfX + 1) - left;
    int height = (int) Math.min(picture.height(), y + halfY + 1) - top;
    float[] pixels = new float[width * height];
    for (int row = 0; row < height; row++) {
      System.arraycopy(
          picture.pixels(), (top + row) * picture.width() + left, pixels, row * width, width);
    }
    return new Window(left, top, new Grey(width, height, pixels));
  }

  /**
   * The cladding in it, placed in the picture.
   *
   * @param coreless whether a disk in which no core is seen is a fibre all the same
   */
  Optional<CladdingFinder.Found> cladding(Predicate<CladdingFinder.Found> coreless) {
    CladdingFinder.Result result = new CladdingFinder(grey).find();
    if (result instanceof CladdingFinder.Found found) {
      return Optional.of(placed(found));
    }
    return ((CladdingFinder.Missing) result).disk().map(this::placed).filter(coreless);
  }

  private CladdingFinder.Found placed(CladdingFinder.Found found) {
    Cladding c = found.edge();
    return new CladdingFinder.Found(
        new Cladding(c.cx() + left, c.cy() + top, c.rxPx(), c.ryPx()),
        found.blurPx(),
        found.step());
  }
}
