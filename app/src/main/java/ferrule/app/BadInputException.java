package ferrule.app;

import ferrule.core.Problem;
import java.util.List;

/** The input could not be used: each problem is one line for the user. */
public final class BadInputException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  /** One or more problems. */
  public BadInputException(List<Problem> problems) {
    super(problems.isEmpty() ? "bad input" : problems.get(0).line());
    this.problems = List.copyOf(problems);
  }

  /** One problem. */
  public BadInputException(Problem problem) {
    this(List.of(problem));
  }

  /** What is wrong. */
  public List<Problem> problems() {
    return problems;
  }
}
