package ferrule.core.job;

/**
 * A fact that two crews entered differently and nobody has settled since their files were joined.
 * Both values are on record; the one entered later stands in the job meanwhile.
 *
 * @param matter what it is a fact of
 * @param id the name of the link, cord or zero; empty for the paper
 * @param what both values, one sentence without a full stop
 */
public record Conflict(Matter matter, String id, String what) {

  /** What readings hang on. */
  public enum Matter {
    /** The requirement: what every reading is held against. */
    PAPER,
    /** A link: its limit and its loss. */
    LINK,
    /** A test cord: every reading under a zero that names it. */
    CORD,
    /** A zero: every reading under it. */
    ZERO
  }
}
