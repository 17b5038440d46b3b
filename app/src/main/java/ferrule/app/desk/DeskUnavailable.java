package ferrule.app.desk;

import ferrule.core.Problem;

/** The desk cannot be opened, for a reason that its user can mend. */
public final class DeskUnavailable extends Exception {

  private final transient Problem problem;

  DeskUnavailable(Problem problem, Throwable cause) {
    super(problem.line(), cause);
    this.problem = problem;
  }

  DeskUnavailable(Problem problem) {
    super(problem.line());
    this.problem = problem;
  }

  /** What is wrong and what to do about it. */
  public Problem problem() {
    return problem;
  }
}
