package ferrule.core.trust;

/** Where a fibre stands. */
public enum Standing {
  /** All required readings present, accepted, and reached by no blocking doubt. */
  PROVED("proved"),
  /** A believed reading is rejected. */
  FAILED("failed"),
  /** A blocking doubt reaches it. */
  DOUBTFUL("doubtful"),
  /** Something required is missing or undecided. */
  OPEN("open");

  private final String word;

  Standing(String word) {
    this.word = word;
  }

  /** "proved", "failed", "doubtful" or "open". */
  public String word() {
    return word;
  }
}
