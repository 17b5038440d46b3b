package ferrule.core.isolation;

/** What is known of a cord end. */
public enum EndState {
  /** It loses no more than a reference-grade end may, with a probability of 95 % or more. */
  IN_ORDER("in order"),
  /** It loses more than a reference-grade end may, with a probability of 95 % or more. */
  BAD("bad"),
  /** It can be told, but lies too near the limit for its uncertainty. */
  UNDECIDED("undecided"),
  /** The readings do not tell it from other ends. */
  UNTOLD("cannot be told");

  private final String word;

  EndState(String word) {
    this.word = word;
  }

  /** For a reader and for scripts. */
  public String word() {
    return word;
  }
}
