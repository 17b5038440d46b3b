package ferrule.store.intake;

import ferrule.core.Problem;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The cells of one row, asked for by column number, and turned into numbers, days and times. What
 * cannot be understood becomes a problem with file, row and column; {@link #bad()} then says that
 * the row must not be used.
 *
 * <p>One instance serves a whole file, row after row.
 */
final class Cells {

  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d+([.]\\d*)?|[.]\\d+)([eE][+-]?\\d{1,3})?");
  private static final Pattern COMMA_NUMBER = Pattern.compile("[+-]?\\d+,\\d+");
  private static final Pattern WITH_UNIT =
      Pattern.compile("([+-]?[\\d.,]+)\\s*(?!$)([a-zA-Zµ'\"/]+)");
  private static final Pattern UNUSUAL_MINUS = Pattern.compile("[\u2010-\u2015\u2212]");
  private static final Pattern DAY_FORM = Pattern.compile("\\d{4}-\\d\\d-\\d\\d");
  private static final Pattern TIME_FORM =
      Pattern.compile("\\d{4}-\\d\\d-\\d\\d[T ]\\d\\d:\\d\\d\\S*(Z|[+-]\\d\\d:\\d\\d)");
  private static final Pattern NO_OFFSET =
      Pattern.compile("\\d{4}-\\d\\d-\\d\\d[T ]\\d\\d:\\d\\d(:\\d\\d([.]\\d+)?)?");

  /** Stands for a formula whose result the workbook does not hold. */
  static final String NOT_CALCULATED = "#formula without a result";

  /** Words that spreadsheets write where a formula failed. */
  private static final Set<String> ERROR_WORDS =
      Set.of(
          NOT_CALCULATED,
          "#N/A",
          "#REF!",
          "#VALUE!",
          "#DIV/0!",
          "#NAME?",
          "#NUM!",
          "#NULL!",
          "#SPILL!",
          "#CALC!");

  private static final int LONGEST_NAME = 200;
  private static final int LONGEST_NOTE = 1000;

  private static final double[] TENTHS = {1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

  private final String file;
  private final Header header;
  private final boolean decimalComma;
  private final List<Problem> problems;
  private final Words words = new Words();
  private final String[] last;
  private final String[] sound;
  private final char[] lastTimeText = new char[IsoTime.LONGEST];
  private int lastTimeLength;
  private Instant lastTime = Instant.EPOCH;
  private RowBuffer row = new RowBuffer();
  private boolean bad;

  /**
   * @param decimalComma whether the file's separator leaves the comma free for decimals
   */
  Cells(String file, Header header, boolean decimalComma, List<Problem> problems) {
    this.file = file;
    this.header = header;
    this.decimalComma = decimalComma;
    this.problems = problems;
    this.last = new String[header.kind().columns().size()];
    Arrays.fill(last, "");
    this.sound = last.clone();
  }

  /** Turns to the next row. A row of the wrong width is a problem. */
  void turnTo(RowBuffer next) {
    this.row = next;
    this.bad = false;
    if (next.count() != header.width()) {
      problem(
          "",
          header.width() + " fields, as in the header",
          next.count() + (next.count() == 1 ? " field" : " fields"),
          next.count() > header.width()
              ? "put quotes around a field that holds the separator; a decimal comma splits a field"
              : "add the missing separators");
    }
  }

  /** Whether the row has a problem so far. */
  boolean bad() {
    return bad;
  }

  void problem(String column, String expected, String found, String action) {
    bad = true;
    problems.add(new Problem(file, row.row(), column, expected, found, action));
  }

  private String name(int column) {
    return header.kind().columns().get(column);
  }

  private boolean has(int column) {
    int at = header.position(column);
    return at >= 0 && at < row.count();
  }

  /** The text of a cell, white space around it left out; empty if there is none. Kept once. */
  String text(int column) {
    if (!has(column)) {
      return "";
    }
    int start = row.start(header.position(column));
    int end = row.end(header.position(column));
    String before = last[column];
    if (Words.same(before, row.chars(), start, end - start)) {
      return before;
    }
    String text = words.of(row.chars(), start, end);
    last[column] = text;
    return text;
  }

  /** Whether a cell is empty. */
  boolean isEmpty(int column) {
    if (!has(column)) {
      return true;
    }
    int at = header.position(column);
    return row.end(at) == row.start(at);
  }

  /** The text of a cell that must not be empty. */
  String required(int column) {
    String text = text(column);
    if (text.isEmpty()) {
      problem(name(column), "a value", "nothing", "fill it in");
    }
    return text;
  }

  /** A name: not empty, at most 200 characters, no control characters. */
  String id(int column) {
    return name(column, required(column));
  }

  /** A name, or nothing. */
  String idOrNothing(int column) {
    return name(column, text(column));
  }

  private String name(int column, String text) {
    if (isSound(column, text)) {
      return text;
    }
    checkText(column, text, "a name", LONGEST_NAME);
    return text;
  }

  /** Whether the cell above held the very same text, and it was in order. */
  @SuppressWarnings("ReferenceEquality") // equal texts are kept once; a miss only costs a check
  private boolean isSound(int column, String text) {
    return text == sound[column];
  }

  /** Free text of at most 1000 characters; a line break or tab in it counts as a blank. */
  String note(int column) {
    String text = text(column);
    if (isSound(column, text)) {
      return text;
    }
    if (hasControl(text)) {
      text = text.replaceAll("[\\t\\r\\n]+", " ");
    }
    checkText(column, text, "a text", LONGEST_NOTE);
    return text;
  }

  private void checkText(int column, String text, String what, int longest) {
    if (text.length() > longest || hasControl(text)) {
      problem(
          name(column),
          what + " of at most " + longest + " printable characters",
          text,
          "shorten or clean it");
    } else if (text.startsWith("#") && ERROR_WORDS.contains(text)) {
      problem(name(column), what, text, "correct the formula in the spreadsheet and save it again");
    } else {
      sound[column] = text;
    }
  }

  private static boolean hasControl(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (Character.isISOControl(text.charAt(i))) {
        return true;
      }
    }
    return false;
  }

  /** A number within bounds; NaN if the cell is empty or, with a problem, if it is not one. */
  double number(int column, double least, double most, String unit) {
    if (isEmpty(column)) {
      return Double.NaN;
    }
    double value = plainNumber(column);
    if (value >= least && value <= most) {
      return value;
    }
    String text = text(column);
    value = Double.isNaN(value) ? anyNumber(text) : value;
    if (value >= least && value <= most) {
      return value;
    }
    String expected = "a number from " + shown(least) + " to " + shown(most) + " " + unit;
    Matcher withUnit = WITH_UNIT.matcher(text);
    if (COMMA_NUMBER.matcher(text).matches() && !decimalComma) {
      problem(
          name(column),
          expected,
          text,
          "write a decimal point, or separate the file's fields with semicolons");
    } else if (withUnit.matches()) {
      problem(
          name(column),
          expected + ", without a unit",
          text,
          (unit.equals(withUnit.group(2)) ? "" : "convert it to " + unit + " and ")
              + "leave the unit out");
    } else if (UNUSUAL_MINUS.matcher(text).lookingAt()) {
      problem(name(column), expected, text, "write the minus sign as a plain hyphen");
    } else {
      problem(name(column), expected, text, "correct it");
    }
    return Double.NaN;
  }

  /** A number that must be there. */
  double requiredNumber(int column, double least, double most, String unit) {
    if (isEmpty(column)) {
      required(column);
      return Double.NaN;
    }
    return number(column, least, most, unit);
  }

  /** A whole number within bounds, or the default if the cell is empty. */
  int whole(int column, int least, int most, int ifEmpty) {
    if (isEmpty(column)) {
      return ifEmpty;
    }
    double value = plainNumber(column);
    if (value >= least && value <= most && value == Math.rint(value)) {
      return (int) value;
    }
    problem(
        name(column), "a whole number from " + least + " to " + most, text(column), "correct it");
    return ifEmpty;
  }

  /** A whole number that must be there. */
  int requiredWhole(int column, int least, int most) {
    if (isEmpty(column)) {
      required(column);
      return least;
    }
    return whole(column, least, most, least);
  }

  private static String shown(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** Digits with at most one point, up to 15 of them; NaN for anything else. Exact, and quick. */
  double plainNumber(int column) {
    char[] chars = row.chars();
    int i = row.start(header.position(column));
    int end = row.end(header.position(column));
    boolean negative = chars[i] == '-';
    if (negative || chars[i] == '+') {
      i++;
    }
    long digits = 0;
    int count = 0;
    int decimals = -1;
    for (; i < end; i++) {
      char c = chars[i];
      if (c >= '0' && c <= '9') {
        digits = digits * 10 + (c - '0');
        count++;
        if (decimals >= 0) {
          decimals++;
        }
      } else if (c == '.' && decimals < 0) {
        decimals = 0;
      } else {
        return Double.NaN;
      }
    }
    if (count == 0 || count > 15 || decimals >= TENTHS.length) {
      return Double.NaN;
    }
    // Both operands are exact doubles, so the quotient is the double nearest to the decimal.
    double value = decimals > 0 ? digits / TENTHS[decimals] : digits;
    return negative ? -value : value;
  }

  private double anyNumber(String text) {
    if (decimalComma && COMMA_NUMBER.matcher(text).matches()) {
      return Double.parseDouble(text.replace(',', '.'));
    }
    return NUMBER.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
  }

  /** A day, written 2026-10-05; empty if the cell is empty or, with a problem, if it is not one. */
  Optional<LocalDate> day(int column) {
    String text = text(column);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      LocalDate day = LocalDate.parse(text);
      if (day.getYear() >= 1980 && day.getYear() <= 2200) {
        return Optional.of(day);
      }
    } catch (DateTimeException e) {
      // said below
    }
    problem(
        name(column),
        "a day such as 2026-10-05",
        text,
        DAY_FORM.matcher(text).matches()
            ? "correct it: there is no such day, or it is not of this age"
            : "write year-month-day");
    return Optional.empty();
  }

  /** A time with offset; null if the cell is empty or, with a problem, if it is not one. */
  @Nullable Instant time(int column) {
    if (isEmpty(column)) {
      return null;
    }
    int start = row.start(header.position(column));
    int end = row.end(header.position(column));
    // Both wavelengths of a fibre are mostly read at one time: one object for one time.
    if (Arrays.equals(lastTimeText, 0, lastTimeLength, row.chars(), start, end)) {
      return lastTime;
    }
    Instant quick = IsoTime.parse(row.chars(), start, end);
    if (quick != null) {
      lastTimeLength = end - start;
      System.arraycopy(row.chars(), start, lastTimeText, 0, lastTimeLength);
      lastTime = quick;
      return quick;
    }
    String text = text(column);
    try {
      Instant time = OffsetDateTime.parse(text.replace(' ', 'T')).toInstant();
      if (IsoTime.isPlausible(time)) {
        return time;
      }
    } catch (DateTimeException e) {
      // said below
    }
    problem(
        name(column),
        "a time with its offset, such as 2026-10-05T14:30:00+02:00",
        text,
        timeAdvice(text));
    return null;
  }

  private static String timeAdvice(String text) {
    if (NO_OFFSET.matcher(text).matches()) {
      return "add the offset from UTC: +02:00, or Z for UTC";
    }
    return TIME_FORM.matcher(text).matches()
        ? "correct it: there is no such time, or it is not of this age"
        : "write it in that form";
  }

  /** A time that must be there; a stand-in, with a problem, if it is not. */
  Instant requiredTime(int column) {
    if (isEmpty(column)) {
      required(column);
      return Instant.EPOCH;
    }
    Instant time = time(column);
    return time == null ? Instant.EPOCH : time;
  }

  /** Complains about a word that is not one of a few. */
  void unknownWord(int column, String expected) {
    problem(name(column), expected, text(column), "correct it");
  }
}
