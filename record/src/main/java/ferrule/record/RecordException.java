package ferrule.record;

import ferrule.core.Problem;

/** A record could not be written; nothing half done is left. */
public final class RecordException extends Exception {

  private static final long serialVersionUID = 1;

  private final transient Problem problem;

  RecordException(Problem problem) {
    super(problem.line());
    this.problem = problem;
  }

  RecordException(Problem problem, Throwable cause) {
    super(problem.line(), cause);
    this.problem = problem;
  }

  /** Where, what was expected, what was found, what to do. */
  public Problem problem() {
    return problem;
  }
}
