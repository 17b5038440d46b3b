package ferrule.core.rulebook;

import java.util.Optional;

/** How well a figure is known. */
public enum Confidence {
  /** Seen with this value at two or more independent publishers. */
  TWO_SOURCES("two-sources", "two independent sources"),
  /** Seen with this value at one publisher. */
  ONE_SOURCE("one-source", "one source"),
  /** Recalled, not seen: must be confirmed against the standard before anyone relies on it. */
  MEMORY("memory", "from memory: confirm against the standard"),
  /** The owner's own figure, from the owner's rulebook or the job file. */
  OWNER("owner", "the owner's own figure");

  private final String id;
  private final String shown;

  Confidence(String id, String shown) {
    this.id = id;
    this.shown = shown;
  }

  /** The word used in rulebook files. */
  public String id() {
    return id;
  }

  /** The words shown to a reader beside the figure. */
  public String shown() {
    return shown;
  }

  /** The confidence with this id, if there is one. */
  public static Optional<Confidence> ofId(String id) {
    for (Confidence confidence : values()) {
      if (confidence.id.equals(id)) {
        return Optional.of(confidence);
      }
    }
    return Optional.empty();
  }
}
