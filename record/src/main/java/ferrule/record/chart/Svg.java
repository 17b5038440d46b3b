package ferrule.record.chart;

/** A drawing as text. Coordinates are written with two decimals at most. */
final class Svg implements Pen {

  private final StringBuilder text = new StringBuilder(512);

  /**
   * Opens a drawing that has a name and a description in words.
   *
   * @param id unique on the page; letters that an id may not hold become "-"
   * @param classes for style sheets
   * @param width in CSS pixels
   * @param height in CSS pixels
   */
  static Svg described(
      String id, String classes, double width, double height, String title, String description) {
    String safe = safeId(id);
    Svg svg = new Svg();
    svg.open(classes, width, height);
    svg.text
        .append(" role=\"img\" aria-labelledby=\"")
        .append(safe)
        .append("-t ")
        .append(safe)
        .append("-d\"><title id=\"")
        .append(safe)
        .append("-t\">")
        .append(escape(title))
        .append("</title><desc id=\"")
        .append(safe)
        .append("-d\">")
        .append(escape(description))
        .append("</desc>");
    return svg;
  }

  /** Opens a drawing that repeats what stands beside it in words. */
  static Svg decorative(String classes, double width, double height) {
    Svg svg = new Svg();
    svg.open(classes, width, height);
    svg.text.append(" aria-hidden=\"true\">");
    return svg;
  }

  private void open(String classes, double width, double height) {
    text.append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"")
        .append(classes)
        .append("\" width=\"")
        .append(number(width))
        .append("\" height=\"")
        .append(number(height))
        .append("\" viewBox=\"0 0 ")
        .append(number(width))
        .append(' ')
        .append(number(height))
        .append('"');
  }

  @Override
  public void rect(String classes, double x, double y, double width, double height, Paint paint) {
    text.append("<rect class=\"").append(classes).append("\" x=\"").append(number(x));
    text.append("\" y=\"").append(number(y)).append("\" width=\"").append(number(width));
    text.append("\" height=\"").append(number(height)).append('"');
    paint(paint);
    text.append("/>");
  }

  @Override
  public void shape(String classes, Shape shape, Paint paint) {
    text.append("<path class=\"").append(classes).append("\" d=\"");
    for (Shape.Step step : shape.steps()) {
      switch (step.move()) {
        case TO -> point('M', step);
        case LINE -> point('L', step);
        case CLOSE -> text.append('Z');
      }
    }
    text.append('"');
    paint(paint);
    text.append("/>");
  }

  private void point(char letter, Shape.Step step) {
    text.append(letter).append(number(step.x())).append(' ').append(number(step.y()));
  }

  private void paint(Paint paint) {
    text.append(" fill=\"").append(paint.fill()).append('"');
    if (paint.fillOpacity() != 1) {
      text.append(" fill-opacity=\"").append(number(paint.fillOpacity())).append('"');
    }
    if (!paint.stroke().equals(Paint.NONE)) {
      text.append(" stroke=\"").append(paint.stroke());
      text.append("\" stroke-width=\"").append(number(paint.width())).append('"');
      if (paint.strokeOpacity() != 1) {
        text.append(" stroke-opacity=\"").append(number(paint.strokeOpacity())).append('"');
      }
    }
  }

  @Override
  public void text(String classes, double x, double y, Anchor anchor, String words) {
    text.append("<text class=\"").append(classes).append("\" x=\"").append(number(x));
    text.append("\" y=\"").append(number(y)).append("\" text-anchor=\"");
    text.append(anchor.word()).append("\" font-family=\"'IBM Plex Sans', sans-serif\"");
    text.append(" font-size=\"").append(number(TEXT_PX)).append("\" fill=\"currentColor\">");
    text.append(escape(words)).append("</text>");
  }

  /** Closes the drawing. */
  String close() {
    return text.append("</svg>").toString();
  }

  /** Text safe inside an element or an attribute of XML 1.0. */
  static String escape(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(isXml(c) ? c : 0xFFFD);
              }
            });
    return safe.toString();
  }

  private static boolean isXml(int c) {
    return (c >= 0x20 && c <= 0xD7FF)
        || (c >= 0xE000 && c <= 0xFFFD)
        || c >= 0x10000
        || c == '\t'
        || c == '\n';
  }

  private static String safeId(String id) {
    String safe = id.replaceAll("[^A-Za-z0-9_.-]", "-");
    return safe.isEmpty() || !Character.isLetter(safe.charAt(0)) ? "s" + safe : safe;
  }

  /** A coordinate: two decimals at most. */
  static String number(double value) {
    long hundredths = Math.round(value * 100);
    if (hundredths % 100 == 0) {
      return Long.toString(hundredths / 100);
    }
    return Double.toString(hundredths / 100.0);
  }
}
