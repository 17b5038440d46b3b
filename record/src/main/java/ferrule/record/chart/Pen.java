package ferrule.record.chart;

/**
 * What drawings are drawn with: SVG text, or a page. Coordinates are CSS pixels, x to the right, y
 * down.
 */
public interface Pen {

  /** Which end of a text stands at its point. */
  enum Anchor {
    /** Its beginning. */
    START("start"),
    /** Its middle. */
    MIDDLE("middle"),
    /** Its end. */
    END("end");

    private final String word;

    Anchor(String word) {
      this.word = word;
    }

    /** As SVG writes it. */
    public String word() {
      return word;
    }
  }

  /** Size of every text in a drawing, CSS pixels. */
  double TEXT_PX = 10;

  /** A rectangle; {@code classes} are for style sheets. */
  void rect(String classes, double x, double y, double width, double height, Paint paint);

  /** Lines or figures. */
  void shape(String classes, Shape shape, Paint paint);

  /** One line of text in ink, its baseline at {@code y}. */
  void text(String classes, double x, double y, Anchor anchor, String words);
}
