package ferrule.store.job;

import ferrule.core.Problem;

/** A job file could not be used; nothing that was stored is lost. */
public final class JobFileException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient Problem problem;

  JobFileException(Problem problem) {
    super(problem.line());
    this.problem = problem;
  }

  JobFileException(Problem problem, Throwable cause) {
    super(problem.line(), cause);
    this.problem = problem;
  }

  /** What is wrong, for the user. */
  public Problem problem() {
    return problem;
  }
}
