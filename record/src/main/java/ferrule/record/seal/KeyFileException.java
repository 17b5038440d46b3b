package ferrule.record.seal;

import ferrule.core.Problem;

/** A key file cannot be used, or cannot be made. */
public final class KeyFileException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient Problem problem;

  KeyFileException(Problem problem) {
    super(problem.line());
    this.problem = problem;
  }

  KeyFileException(Problem problem, Throwable cause) {
    super(problem.line(), cause);
    this.problem = problem;
  }

  /** Which file, what was expected, what was found, what to do. */
  public Problem problem() {
    return problem;
  }
}
