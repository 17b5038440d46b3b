package ferrule.core.entry;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A number as a person types or dictates it: a decimal point or comma, a minus sign in any of its
 * forms, digits of any script, with or without its unit.
 *
 * <p>Comma and point are both decimal marks and never set thousands apart: a level or a loss has no
 * thousands. What could be read in two ways is refused.
 */
public final class TypedNumber {

  /** What a number is of. */
  public enum Kind {
    /** A level: dBm, from -100 to 40. */
    LEVEL("dBm", -100, 40, "-5.37"),
    /** A loss: dB, from -60 to 100. */
    LOSS("dB", -60, 100, "0.42");

    private final String unit;
    private final double least;
    private final double most;
    private final String example;

    Kind(String unit, double least, double most, String example) {
      this.unit = unit;
      this.least = least;
      this.most = most;
      this.example = example;
    }

    /** "dBm" or "dB". */
    public String unit() {
      return unit;
    }
  }

  /** What became of the text. */
  public sealed interface Outcome {}

  /**
   * A number.
   *
   * @param value in the unit of its kind
   */
  public record Number(double value) implements Outcome {}

  /**
   * No number.
   *
   * @param expected what would be
   * @param todo what to do
   */
  public record Refused(String expected, String todo) implements Outcome {

    /** One line: "expected ..., found ...; ...". */
    public String line(String found) {
      return "Expected " + expected + "; found " + found + "; " + todo + ".";
    }
  }

  private static final int LONGEST = 40;

  /** Hyphens and dashes, the minus sign, and their small and full-width forms. */
  private static final Pattern MINUS = Pattern.compile("[-\u2010-\u2015\u2212\uFE58\uFE63\uFF0D]");

  private static final Pattern PLUS = Pattern.compile("[+\uFE62\uFF0B]");

  /** Point, comma, their full-width and Arabic forms, and the raised point. */
  private static final Pattern MARK = Pattern.compile("[.,\uFF0E\uFF0C\u066B\u00B7]");

  /** Words said for a mark: English, German, Spanish. */
  private static final Pattern MARK_WORD =
      Pattern.compile("(?<=\\d)\\s*\\b(?:point|punkt|punto|comma|komma|coma)\\b\\s*(?=\\d)");

  private static final Pattern MINUS_WORD = Pattern.compile("^(?:minus|menos)\\s*(?=\\d)");

  private static final Pattern UNIT = Pattern.compile("\\s*(dbm|db)$");

  /** White space, no-break blanks, and marks of direction that come along when text is pasted. */
  private static final Pattern BLANK =
      Pattern.compile("[\\s\\u00A0\\u061C\\u2000-\\u200F\\u202A-\\u202F\\u2066-\\u2069\\uFEFF]+");

  private static final Pattern PLAIN = Pattern.compile("[+-]?(?:\\d+[.]?\\d*|[.]\\d+)");

  private TypedNumber() {}

  /**
   * Reads a number.
   *
   * @param text as typed
   * @param kind what it should be
   */
  public static Outcome read(String text, Kind kind) {
    String expected =
        "a number of " + kind.unit + " from " + whole(kind.least) + " to " + whole(kind.most);
    if (text.length() > LONGEST) {
      return new Refused(expected, "type the number alone, such as " + kind.example);
    }
    String plain = plain(text);
    var unit = UNIT.matcher(plain);
    if (unit.find()) {
      if (!unit.group(1).equals(kind.unit.toLowerCase(Locale.ROOT))) {
        return new Refused(
            expected,
            kind == Kind.LEVEL
                ? "choose loss above if the meter shows dB"
                : "choose level above if the meter shows dBm");
      }
      plain = plain.substring(0, unit.start());
    }
    if (!PLAIN.matcher(plain).matches()) {
      return new Refused(
          expected,
          plain.chars().filter(c -> c == '.').count() > 1
              ? "type one decimal mark only"
              : "type the number alone, such as " + kind.example);
    }
    double value = Double.parseDouble(plain);
    if (!(value >= kind.least && value <= kind.most)) {
      return new Refused(expected, "look for the decimal mark");
    }
    return new Number(value == 0 ? 0 : value);
  }

  /** ASCII digits, "-", "+" and "."; everything else as it was, in lower case. */
  private static String plain(String text) {
    StringBuilder digits = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              int digit = Character.isDigit(c) ? Character.digit(c, 10) : -1;
              if (digit >= 0) {
                digits.append(digit);
              } else {
                digits.appendCodePoint(c);
              }
            });
    String plain = BLANK.matcher(digits).replaceAll(" ").strip().toLowerCase(Locale.ROOT);
    plain = MARK_WORD.matcher(plain).replaceAll(".");
    plain = MINUS_WORD.matcher(plain).replaceAll("-");
    plain = MINUS.matcher(plain).replaceAll("-");
    plain = PLUS.matcher(plain).replaceAll("+");
    plain = MARK.matcher(plain).replaceAll(".");
    return plain.replaceFirst("^([+-]) ", "$1");
  }

  private static String whole(double value) {
    return Long.toString((long) value);
  }

  /** The number, if it is one. */
  public static Optional<Double> value(String text, Kind kind) {
    return read(text, kind) instanceof Number number
        ? Optional.of(number.value())
        : Optional.empty();
  }
}
