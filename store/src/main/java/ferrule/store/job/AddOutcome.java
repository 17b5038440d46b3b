package ferrule.store.job;

import ferrule.core.Problem;
import java.util.List;

/**
 * What became of the rows that were handed in.
 *
 * @param files one line a file
 * @param problems rows that were not used, each with the reason
 * @param notes what a reader should know
 */
public record AddOutcome(List<FileOutcome> files, List<Problem> problems, List<String> notes) {

  /**
   * What became of one file. {@code rows = entered + superseding + repeated + unused}.
   *
   * @param name file name
   * @param rows data rows in it
   * @param entered rows that became entries
   * @param superseding rows that became entries and correct earlier ones
   * @param repeated rows that the job held already
   * @param unused rows with a problem
   */
  public record FileOutcome(
      String name, long rows, long entered, long superseding, long repeated, long unused) {

    /** Whether it added nothing. */
    public boolean addedNothing() {
      return entered == 0 && superseding == 0;
    }
  }

  /** Copies the lists. */
  public AddOutcome {
    files = List.copyOf(files);
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
  }

  /** Rows that became entries. */
  public long entered() {
    return files.stream().mapToLong(f -> f.entered() + f.superseding()).sum();
  }
}
