package ferrule.store.job;

import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.Optional;

/**
 * A reading as an entry of the job file, standing or not.
 *
 * @param seq number of the entry
 * @param reading what was read
 * @param enteredAt when it was entered
 * @param file where it came from: a table, or {@link TypedEntries#TYPED}
 * @param key under which it was typed; empty if it was not
 * @param supersedes the entry that it corrects; 0 if none
 * @param why why it corrects that, or why the fibre was read again; empty if neither
 * @param end what took its place, if anything
 */
public record KeptReading(
    long seq,
    Reading reading,
    Instant enteredAt,
    String file,
    String key,
    long supersedes,
    String why,
    Optional<End> end) {

  /**
   * What ended a reading.
   *
   * @param seq number of the entry that did
   * @param withdrawn whether nothing took its place
   * @param at when
   * @param why why
   */
  public record End(long seq, boolean withdrawn, Instant at, String why) {}

  /** Whether it stands: neither corrected nor withdrawn. */
  public boolean stands() {
    return end.isEmpty();
  }

  KeptReading endedBy(End by) {
    return new KeptReading(seq, reading, enteredAt, file, key, supersedes, why, Optional.of(by));
  }
}
