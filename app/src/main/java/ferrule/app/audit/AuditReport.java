package ferrule.app.audit;

import ferrule.record.About;
import ferrule.record.audit.Difference;
import ferrule.record.audit.SealCheck;
import java.util.List;
import java.util.Optional;

/**
 * What an audit of a record came to.
 *
 * @param about what the record says of itself; empty if that cannot be understood
 * @param seal signature and hashes
 * @param chain whether the entries are one whole chain, each readable as what it says it is
 * @param recomputed what was computed anew; empty if it could not be
 * @param whole whether every file was compared; a record by another version is compared only as far
 *     as both know it
 * @param differences each one line; empty if all agrees
 * @param beyond differences more than are listed
 * @param notes what else a reader should know, each a sentence
 */
public record AuditReport(
    Optional<About> about,
    SealCheck seal,
    boolean chain,
    Optional<Recomputed> recomputed,
    boolean whole,
    List<Difference> differences,
    long beyond,
    List<String> notes) {

  /**
   * What was computed anew.
   *
   * @param entries that it was computed from
   * @param head hash of the last of them
   * @param fibres standings
   * @param readings allowances, uncertainties and decisions
   * @param zeros trusts
   * @param doubts that follow
   */
  public record Recomputed(
      long entries, String head, int fibres, int readings, int zeros, int doubts) {}

  /** Copies the lists. */
  public AuditReport {
    differences = List.copyOf(differences);
    notes = List.copyOf(notes);
  }

  /** Whether everything was computed anew and there is no difference. */
  public boolean agrees() {
    return recomputed.isPresent() && differences.isEmpty();
  }
}
