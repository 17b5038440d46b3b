package ferrule.record.chart;

/**
 * How a shape is painted. A colour is {@link #NONE}, {@link #INK}, {@link #PAPER} or "#RRGGBB".
 *
 * @param fill colour inside
 * @param fillOpacity 0 to 1
 * @param stroke colour of the line
 * @param width of the line, CSS pixels
 * @param strokeOpacity 0 to 1
 */
public record Paint(
    String fill, double fillOpacity, String stroke, double width, double strokeOpacity) {

  /** No colour. */
  public static final String NONE = "none";

  /** The colour of the text around. */
  public static final String INK = "currentColor";

  /** The colour of the page. */
  public static final String PAPER = "#FFFFFF";

  /** Accepted, proved: blue of the Okabe-Ito set. */
  static final String BLUE = "#0072B2";

  /** Rejected, failed: vermillion. */
  static final String VERMILLION = "#D55E00";

  /** Doubtful: reddish purple. */
  static final String PURPLE = "#CC79A7";

  static Paint filled(String colour) {
    return new Paint(colour, 1, NONE, 0, 1);
  }

  static Paint filled(String colour, double opacity) {
    return new Paint(colour, opacity, NONE, 0, 1);
  }

  static Paint line(String colour, double width) {
    return new Paint(NONE, 1, colour, width, 1);
  }

  static Paint line(String colour, double width, double opacity) {
    return new Paint(NONE, 1, colour, width, opacity);
  }

  static Paint both(String fill, String stroke, double width) {
    return new Paint(fill, 1, stroke, width, 1);
  }
}
