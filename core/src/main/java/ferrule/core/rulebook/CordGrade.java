package ferrule.core.rulebook;

import java.util.Optional;

/** How well the plug of a test cord is made. */
public enum CordGrade {
  /** Near-centred plug, made for testing. */
  REFERENCE("reference"),
  /** Ordinary plug: keeps the full connection allowance at its end. */
  STANDARD("standard");

  private final String word;

  CordGrade(String word) {
    this.word = word;
  }

  /** The word used in tables: "reference" or "standard". */
  public String word() {
    return word;
  }

  /** The grade with this word, if there is one. */
  public static Optional<CordGrade> ofWord(String word) {
    for (CordGrade grade : values()) {
      if (grade.word.equalsIgnoreCase(word)) {
        return Optional.of(grade);
      }
    }
    return Optional.empty();
  }
}
