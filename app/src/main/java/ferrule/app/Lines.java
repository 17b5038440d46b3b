package ferrule.app;

import java.io.PrintWriter;

/** Lines for a terminal or a pipe. */
public final class Lines {

  private static final int WIDTH = 100;
  private static final int HANGING = 4;

  private Lines() {}

  /** Prints a line, broken at blanks where it is too long, what follows set in deeper. */
  public static void say(PrintWriter out, String line) {
    int indent = 0;
    while (indent < line.length() && line.charAt(indent) == ' ') {
      indent++;
    }
    String rest = line;
    while (rest.length() > WIDTH) {
      int at = rest.lastIndexOf(' ', WIDTH);
      if (at <= indent + HANGING) {
        break;
      }
      out.println(rest.substring(0, at));
      rest = " ".repeat(indent + HANGING) + rest.substring(at + 1);
    }
    out.println(rest);
  }
}
