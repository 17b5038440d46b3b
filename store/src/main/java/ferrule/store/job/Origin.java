package ferrule.store.job;

import ferrule.store.intake.Sha256;
import java.security.MessageDigest;
import java.util.List;

/**
 * A log as it was before a join.
 *
 * @param head hash of its last entry, lower-case hex
 * @param entries as they were in it
 * @param heldBy for each, the number of the entry that holds what it says now
 */
record Origin(String head, List<Entry> entries, List<Integer> heldBy) {

  /** Whether its entries still give its head. */
  boolean isWhole() {
    MessageDigest digest = Sha256.digest();
    byte[] before = Entry.BEFORE_THE_FIRST;
    for (Entry entry : entries) {
      before = entry.hash(before, digest);
    }
    return Sha256.hex(before).equals(head);
  }
}
