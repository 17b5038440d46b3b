package ferrule.core;

/**
 * One thing wrong with the input, in one line: where, what was expected, what was found, what to
 * do.
 *
 * @param file file name as the user gave it; empty if the problem is not in a file
 * @param row 1-based line or row, the header being row 1; 0 if no single row is to blame
 * @param column column or key name; empty if none
 * @param expected what would have been accepted
 * @param found what was there, cut to a readable length
 * @param action what to do about it
 */
public record Problem(
    String file, long row, String column, String expected, String found, String action) {

  private static final int LONGEST_FOUND = 120;

  /**
   * Shortens what was found and the key it was found under, and strips control characters that
   * would spoil a terminal.
   */
  public Problem {
    column = printable(column);
    found = printable(found);
  }

  /** The line shown to the user. */
  public String line() {
    StringBuilder line = new StringBuilder();
    if (!file.isEmpty()) {
      line.append(file);
    }
    if (row > 0) {
      line.append(line.isEmpty() ? "" : ", ").append("row ").append(row);
    }
    if (!column.isEmpty()) {
      line.append(line.isEmpty() ? "" : ", ").append(column);
    }
    line.append(line.isEmpty() ? "" : ": ");
    line.append("expected ").append(expected).append("; found ").append(found);
    if (!action.isEmpty()) {
      line.append("; ").append(action);
    }
    return line.toString();
  }

  /** Text cut to a readable length, control characters replaced by "·". */
  public static String printable(String text) {
    String cut = text.length() > LONGEST_FOUND ? text.substring(0, LONGEST_FOUND) + "…" : text;
    StringBuilder clean = new StringBuilder(cut.length());
    cut.codePoints()
        .forEach(
            c ->
                clean.appendCodePoint(
                    Character.isISOControl(c) || Character.getType(c) == Character.FORMAT
                        ? '·'
                        : c));
    return clean.toString();
  }
}
