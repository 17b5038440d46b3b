package ferrule.record;

import java.io.IOException;
import java.io.Writer;

/** Entries and papers of jobs that tests build without a store: any text will do for the writer. */
public final class TestLog implements JobLog {

  @Override
  public Origin origin() {
    return Origin.JOB_FILE;
  }

  @Override
  public long entries() {
    return 1;
  }

  @Override
  public String head() {
    return "0".repeat(64);
  }

  @Override
  public String paper() {
    return "title = \"a test\"\n";
  }

  @Override
  public String rulebook() {
    return "id = \"a test\"\n";
  }

  @Override
  public void write(Writer out) throws IOException {
    out.write("{\"seq\":1}\n");
  }
}
