package ferrule.store.job;

import ferrule.core.Problem;
import java.util.List;

/**
 * What came of joining two job files.
 *
 * @param files what went in, in the order given
 * @param entries number of entries of the new file
 * @param shared entries that both files held, by id or by content
 * @param conflicts what the two say differently, one line each; both are kept
 * @param notes what a reader should know, clocks above all
 * @param head hash of the new file's last entry, lower-case hex
 */
public record JoinOutcome(
    List<Joined> files,
    long entries,
    long shared,
    List<Problem> conflicts,
    List<String> notes,
    String head) {

  /**
   * A file that went in.
   *
   * @param name as the user gave it
   * @param entries number of its entries
   * @param head hash of its last entry, lower-case hex
   */
  public record Joined(String name, long entries, String head) {}

  /** Copies the lists. */
  public JoinOutcome {
    files = List.copyOf(files);
    conflicts = List.copyOf(conflicts);
    notes = List.copyOf(notes);
  }
}
