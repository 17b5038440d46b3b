package ferrule.app.desk.page;

/**
 * The state of the job when a page was made.
 *
 * @param job tells this job from every other; empty if the desk only reads
 * @param entries number of entries stored; 0 if the desk only reads
 * @param judged number of entries that the judgement shown rests on
 */
public record Now(String job, long entries, long judged) {

  /** Of a desk that only reads. */
  public static final Now READ_ONLY = new Now("", 0, 0);

  /** Whether the judgement shown does not know every entry yet. */
  public boolean judging() {
    return judged < entries;
  }

  /** Whether something may be entered. */
  public boolean writable() {
    return !job.isEmpty();
  }
}
