package ferrule.core.array;

import java.util.List;

/**
 * The colour of a fibre or tube by its number, in the order of ANSI/TIA-598 (seen with two
 * sources): twelve colours, which begin again with one stripe more for each further twelve. Cables
 * of other countries follow other orders, so a colour helps to find a fibre whose number is known;
 * it does not say the number.
 */
public final class FibreColour {

  private static final List<String> TWELVE =
      List.of(
          "blue", "orange", "green", "brown", "slate", "white", "red", "black", "yellow", "violet",
          "rose", "aqua");

  private FibreColour() {}

  /** The twelve, from 1 on. */
  public static List<String> twelve() {
    return TWELVE;
  }

  /**
   * "green", "green with 1 stripe"; stripes are black, on black fibres yellow.
   *
   * @param number from 1
   */
  public static String of(int number) {
    String colour = TWELVE.get((number - 1) % TWELVE.size());
    int stripes = (number - 1) / TWELVE.size();
    if (stripes == 0) {
      return colour;
    }
    return colour
        + " with "
        + stripes
        + (colour.equals("black") ? " yellow" : " black")
        + (stripes == 1 ? " stripe" : " stripes");
  }

  /**
   * Tube and fibre in a cable of tubes of twelve: fibre 27 is "green tube, green fibre".
   *
   * @param number from 1
   */
  public static String inTube(int number) {
    return of((number - 1) / TWELVE.size() + 1)
        + " tube, "
        + TWELVE.get((number - 1) % TWELVE.size())
        + " fibre";
  }

  /** "3 (green)". */
  public static String shown(int number) {
    return number + " (" + of(number) + ")";
  }
}
