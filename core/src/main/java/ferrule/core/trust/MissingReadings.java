package ferrule.core.trust;

import java.util.List;

/** Which required readings a fibre lacks; for finders outside this package. */
public final class MissingReadings {

  private MissingReadings() {}

  /** Whether nothing is lacking. */
  public static boolean isComplete(Ledger ledger, int slot) {
    return Standings.isComplete(ledger, slot);
  }

  /** What is lacking, each in words; empty if nothing is. */
  public static List<String> of(Ledger ledger, int slot) {
    return Standings.missing(ledger, slot);
  }
}
