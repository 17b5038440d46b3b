package ferrule.app;

import ferrule.core.Problem;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;

/**
 * Where words go: results to standard output, problems and progress to standard error. Colour and
 * progress only on a terminal; colour never says anything that the words do not.
 */
public final class Terminal {

  /**
   * Problems listed in full; a file of hundreds of thousands of bad rows must not drown the rest.
   */
  private static final int MOST_PROBLEM_LINES = 500;

  private final PrintWriter out;
  private final PrintWriter err;
  private final boolean interactive;
  private final boolean colour;

  /**
   * @param interactive whether a person watches
   * @param environment for NO_COLOR and TERM
   */
  public Terminal(
      PrintWriter out, PrintWriter err, boolean interactive, Map<String, String> environment) {
    this.out = out;
    this.err = err;
    this.interactive = interactive;
    this.colour =
        interactive
            && !environment.containsKey("NO_COLOR")
            && !"dumb".equals(environment.getOrDefault("TERM", "dumb"));
  }

  /** Standard output. */
  public PrintWriter out() {
    return out;
  }

  /** Standard error. */
  public PrintWriter err() {
    return err;
  }

  /** Heavier type, on a terminal. */
  public String strong(String text) {
    return colour ? "\u001B[1m" + text + "\u001B[0m" : text;
  }

  /** Lighter type, on a terminal. */
  public String faint(String text) {
    return colour ? "\u001B[2m" + text + "\u001B[0m" : text;
  }

  /** One line for each problem, to standard error. */
  public void problems(List<Problem> problems) {
    int shown = 0;
    for (Problem problem : problems) {
      if (shown++ == MOST_PROBLEM_LINES) {
        err.println(
            "... and "
                + (problems.size() - MOST_PROBLEM_LINES)
                + " problems more; judge --json lists all");
        break;
      }
      err.println(problem.line());
    }
    err.flush();
  }

  /** Says what is under way, on a terminal only; the line is overwritten by the next. */
  public void progress(String text) {
    if (interactive) {
      err.print("\r\u001B[K" + text);
      err.flush();
    }
  }

  /** Takes the progress line away. */
  public void progressDone() {
    if (interactive) {
      err.print("\r\u001B[K");
      err.flush();
    }
  }
}
