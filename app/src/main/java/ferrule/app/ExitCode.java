package ferrule.app;

/** Exit codes of every command. A contract: add, never change. */
public final class ExitCode {

  /** Done. */
  public static final int DONE = 0;

  /** Done, and something is failed, doubtful or open. */
  public static final int NOT_ALL_PROVED = 1;

  /** The input, or a part of it, could not be used; one line for each problem. */
  public static final int BAD_INPUT = 2;

  /** A fault of Ferrule's own. */
  public static final int FAULT = 3;

  private ExitCode() {}
}
