package ferrule.core.face;

import java.util.Optional;

/** What the grading of an end face came to. The words are a contract: add, never rename. */
public enum FaceOutcome {
  /** No limit of the criteria is exceeded. */
  CONFORMS("conforms"),
  /** A limit is exceeded. */
  REJECTED("rejected"),
  /** The picture does not support a grade. */
  UNREADABLE("unreadable");

  private final String word;

  FaceOutcome(String word) {
    this.word = word;
  }

  /** The word in JSON and in sentences. */
  public String word() {
    return word;
  }

  /** "1 conforms", "2 conform", "2 rejected". */
  public String counted(long count) {
    return count + " " + (this == CONFORMS && count != 1 ? "conform" : word);
  }

  /** The outcome with this word, if there is one. */
  public static Optional<FaceOutcome> ofWord(String word) {
    for (FaceOutcome outcome : values()) {
      if (outcome.word.equals(word)) {
        return Optional.of(outcome);
      }
    }
    return Optional.empty();
  }
}
