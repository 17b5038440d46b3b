package ferrule.record.chart;

/** Text of one drawing. Coordinates are written with two decimals at most. */
final class Svg {

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

  /** A filled rectangle; {@code paint} is further attributes. */
  Svg rect(String classes, double x, double y, double width, double height, String paint) {
    text.append("<rect class=\"").append(classes).append("\" x=\"").append(number(x));
    text.append("\" y=\"").append(number(y)).append("\" width=\"").append(number(width));
    text.append("\" height=\"").append(number(height)).append("\" ").append(paint).append("/>");
    return this;
  }

  /** A path; {@code paint} is further attributes. */
  Svg path(String classes, String data, String paint) {
    text.append("<path class=\"").append(classes).append("\" d=\"").append(data);
    text.append("\" ").append(paint).append("/>");
    return this;
  }

  /** A line of text, {@code anchor} being start, middle or end. */
  Svg text(String classes, double x, double y, String anchor, String words) {
    text.append("<text class=\"").append(classes).append("\" x=\"").append(number(x));
    text.append("\" y=\"").append(number(y)).append("\" text-anchor=\"").append(anchor);
    text.append("\" font-family=\"'IBM Plex Sans', sans-serif\" font-size=\"10\"");
    text.append(" fill=\"currentColor\">").append(escape(words)).append("</text>");
    return this;
  }

  /** Closes the drawing. */
  String close() {
    return text.append("</svg>").toString();
  }

  /** Path of an upright or level line, or any other. */
  static String line(double x1, double y1, double x2, double y2) {
    return "M" + number(x1) + " " + number(y1) + "L" + number(x2) + " " + number(y2);
  }

  /** Path of a diamond around a point. */
  static String diamond(double x, double y, double half) {
    return "M"
        + number(x - half)
        + " "
        + number(y)
        + "L"
        + number(x)
        + " "
        + number(y - half)
        + "L"
        + number(x + half)
        + " "
        + number(y)
        + "L"
        + number(x)
        + " "
        + number(y + half)
        + "Z";
  }

  /**
   * Path of diagonal lines, rising to the right, that fill a box and do not leave it.
   *
   * @param step distance of the lines along the box's lower edge
   */
  static String hatch(double x, double y, double width, double height, double step) {
    StringBuilder path = new StringBuilder();
    for (double from = step / 2 - height; from < width; from += step) {
      double left = Math.max(0, from);
      double right = Math.min(width, from + height);
      if (right > left) {
        path.append(
            line(x + left, y + height - (left - from), x + right, y + height - (right - from)));
      }
    }
    return path.toString();
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
    return c >= 0x20 && c <= 0xD7FF
        || c >= 0xE000 && c <= 0xFFFD
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
