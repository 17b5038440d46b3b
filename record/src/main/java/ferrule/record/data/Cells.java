package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.Writer;

/** Cells of a table that may be opened in a spreadsheet. */
final class Cells {

  private Cells() {}

  /**
   * A comma separated table, lines ending as RFC 4180 says. Flush it at the end; the writer under
   * it stays open.
   */
  static CsvWriter table(Writer out) {
    return CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(out);
  }

  /**
   * A text cell. Text that a spreadsheet would run as a formula gets an apostrophe before it:
   * whatever begins with {@code = + - @}, their full-width twins, a tab or a line break.
   */
  static String text(String text) {
    return !text.isEmpty() && "=+-@＝＋－＠\t\r\n".indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }

  /** A number, unrounded, with a decimal point; empty if it does not exist. */
  static String number(double value) {
    return Double.isFinite(value) ? Double.toString(value) : "";
  }
}
