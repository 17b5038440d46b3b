package ferrule.app.audit;

import ferrule.record.JobLog;
import ferrule.store.job.WrittenJob;
import java.io.IOException;
import java.io.Writer;

/**
 * A job's log for its record.
 *
 * @param job with the texts of its papers
 * @param origin what the job came from
 * @param lines writes the entries
 */
record WrittenLog(WrittenJob job, Origin origin, Lines lines) implements JobLog {

  /** Where the lines of the entries come from. */
  @FunctionalInterface
  interface Lines {
    /** Writes every entry that the job has. */
    void write(Writer out) throws IOException;
  }

  @Override
  public long entries() {
    return job.stored().entries();
  }

  @Override
  public String head() {
    return job.stored().head();
  }

  @Override
  public String paper() {
    return job.paper();
  }

  @Override
  public String rulebook() {
    return job.rulebook();
  }

  @Override
  public void write(Writer out) throws IOException {
    lines.write(out);
  }
}
