package ferrule.core.face;

import java.util.List;

/** What was seen in one picture of an end face, before any criteria are asked. */
public sealed interface Examined permits Examined.Face, Examined.Row {

  /** One fibre. */
  sealed interface Face extends Examined permits Seen, Unreadable {}

  /**
   * A face that the picture shows.
   *
   * @param cladding edge of the cladding in the picture
   * @param umPerPxX scale along x, µm/px; above 0
   * @param umPerPxY scale along y, µm/px; above 0
   * @param resolvableUm smallest flaw that this picture could show: pixel, blur and focus together,
   *     µm; above 0
   * @param shownUm diameter of the largest circle about the cladding's centre that lies wholly in
   *     the picture, µm; 0 or more
   * @param flaws all flaws seen, in the order found
   */
  record Seen(
      Cladding cladding,
      double umPerPxX,
      double umPerPxY,
      double resolvableUm,
      double shownUm,
      List<Flaw> flaws)
      implements Face {

    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException if a scale or length is not finite or out of its range
     */
    public Seen {
      if (!(umPerPxX > 0
          && Double.isFinite(umPerPxX)
          && umPerPxY > 0
          && Double.isFinite(umPerPxY))) {
        throw new IllegalArgumentException("scales " + umPerPxX + ", " + umPerPxY);
      }
      if (!(resolvableUm > 0 && Double.isFinite(resolvableUm))) {
        throw new IllegalArgumentException("resolvable size " + resolvableUm);
      }
      if (!(shownUm >= 0 && Double.isFinite(shownUm))) {
        throw new IllegalArgumentException("shown diameter " + shownUm);
      }
      flaws = List.copyOf(flaws);
    }

    /** Scale by which an area is a square of micrometres, µm/px. */
    public double umPerPx() {
      return Math.sqrt(umPerPxX * umPerPxY);
    }
  }

  /**
   * A picture that shows no face that could be graded.
   *
   * @param reason why, one sentence without a full stop: "no cladding edge was found"
   */
  record Unreadable(String reason) implements Face {}

  /**
   * A ferrule with several fibres in one picture.
   *
   * @param fibres every place of the row from left to right, {@link Unreadable} where a fibre
   *     should be and was not found; at least one
   */
  record Row(List<Face> fibres) implements Examined {

    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException if it is empty
     */
    public Row {
      if (fibres.isEmpty()) {
        throw new IllegalArgumentException("a row has at least one fibre");
      }
      fibres = List.copyOf(fibres);
    }
  }
}
