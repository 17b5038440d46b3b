package ferrule.core.face;

/**
 * One reason for an outcome, or one thing to know about it.
 *
 * @param kind what sort
 * @param text one sentence without a full stop; of a rejection it names flaw, zone, size, limit,
 *     table and confidence
 */
public record GradeReason(Kind kind, String text) {

  /** Sorts of reasons. */
  public enum Kind {
    /** The picture supports no grade. */
    UNREADABLE,
    /** A limit is exceeded. */
    REJECTED,
    /** No limit is exceeded. */
    CONFORMS,
    /** A size lies within its own uncertainty of a limit. */
    CLOSE,
    /** What was not graded. */
    NOTE
  }
}
