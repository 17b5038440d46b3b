package ferrule.core.uncertainty;

/** What is decided about one reading. */
public enum Decision {
  /** The loss is within the limit under the decision rule. */
  ACCEPT("accept"),
  /** The loss is over the limit under the decision rule. */
  REJECT("reject"),
  /** Too near the limit to say, or there is no limit or no loss. */
  UNDECIDED("undecided");

  private final String word;

  Decision(String word) {
    this.word = word;
  }

  /** "accept", "reject" or "undecided". */
  public String word() {
    return word;
  }
}
