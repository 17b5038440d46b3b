package ferrule.core.face;

import java.util.Optional;

/** What a flaw is, as the criteria tell them apart. */
public enum FlawKind {
  /** A particle, pit, chip, residue or film: sized by the smallest circle that encloses it. */
  DEFECT("defect"),
  /** A line, straight or curved: sized by its width. */
  SCRATCH("scratch");

  private final String word;

  FlawKind(String word) {
    this.word = word;
  }

  /** The word in criteria files, in JSON and in sentences. */
  public String word() {
    return word;
  }

  /** The word for several. */
  public String plural() {
    return this == SCRATCH ? word + "es" : word + "s";
  }

  /** The kind with this word, if there is one. */
  public static Optional<FlawKind> ofWord(String word) {
    for (FlawKind kind : values()) {
      if (kind.word.equals(word)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
