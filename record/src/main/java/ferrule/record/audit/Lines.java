package ferrule.record.audit;

/** Lines of texts that should be equal. */
final class Lines {

  private Lines() {}

  /**
   * The first line, from 1, in which two texts differ; 0 if they do not.
   *
   * @param one a text
   * @param other another
   */
  static long firstDifference(String one, String other) {
    int most = Math.min(one.length(), other.length());
    long line = 1;
    for (int i = 0; i < most; i++) {
      if (one.charAt(i) != other.charAt(i)) {
        return line;
      }
      if (one.charAt(i) == '\n') {
        line++;
      }
    }
    return one.length() == other.length() ? 0 : line;
  }

  /** A line of a text, without its end; empty if there is none. */
  static String line(String text, long number) {
    int from = 0;
    for (long i = 1; i < number; i++) {
      from = text.indexOf('\n', from) + 1;
      if (from == 0) {
        return "";
      }
    }
    int to = text.indexOf('\n', from);
    return text.substring(from, to < 0 ? text.length() : to);
  }
}
