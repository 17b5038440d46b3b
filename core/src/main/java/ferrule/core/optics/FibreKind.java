package ferrule.core.optics;

/** How light travels in a fibre: many modes or one. */
public enum FibreKind {
  /** Many modes; loss depends on the launch. */
  MULTIMODE("multimode"),
  /** One mode; loss is the same in both directions. */
  SINGLE_MODE("single-mode");

  private final String word;

  FibreKind(String word) {
    this.word = word;
  }

  /** The trade's word: "multimode" or "single-mode". */
  public String word() {
    return word;
  }
}
