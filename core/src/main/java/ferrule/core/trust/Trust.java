package ferrule.core.trust;

/** How far a zero can be trusted. */
public enum Trust {
  /** Verified, and no reading taken under it yet. */
  FRESH("fresh"),
  /** Verified, and every reading under it soon after. */
  VERIFIED("verified"),
  /** Verified, but readings under it go on long after the verification. */
  AGEING("ageing"),
  /** Something about it is odd, or it was not verified. */
  DOUBTFUL("doubtful"),
  /** It cannot stand as it is. */
  BROKEN("broken");

  private final String word;

  Trust(String word) {
    this.word = word;
  }

  /** The word shown. */
  public String word() {
    return word;
  }
}
