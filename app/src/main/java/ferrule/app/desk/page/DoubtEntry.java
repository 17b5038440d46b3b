package ferrule.app.desk.page;

import ferrule.core.trust.Doubt;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import java.util.List;

/**
 * One doubt with its number and where to find it.
 *
 * @param number from 1, in the judgement's order: what a reader calls it by
 * @param address where it is shown in full
 * @param subjectAddress where its subject is shown; empty if that has no page
 * @param doubt the doubt
 * @param ledger that its reach lies in
 */
public record DoubtEntry(
    int number, String address, String subjectAddress, Doubt doubt, Ledger ledger) {

  /** The first fact in words; empty if there is none. */
  public String what() {
    return doubt.evidence().stream()
        .filter(e -> e.name().equals("what"))
        .map(Evidence::shown)
        .findFirst()
        .orElse("");
  }

  /** The evidence other than the first fact in words. */
  public List<Evidence> figures() {
    return doubt.evidence().stream().filter(e -> !e.name().equals("what")).toList();
  }

  /** Exactly what it covers. */
  public List<ReachGroup> reach() {
    return ReachGroup.of(ledger, doubt.reach());
  }

  /** "44 readings of 22 fibres", "3 fibres", "no reading yet". */
  public String reachInShort() {
    int readings = doubt.reach().readings().size();
    int fibres = doubt.reach().fibres().size();
    if (readings == 0 && fibres == 0) {
      return "no reading yet";
    }
    String ofFibres = Show.count(fibres, "fibre");
    return readings == 0 ? ofFibres : Show.count(readings, "reading") + " of " + ofFibres;
  }
}
