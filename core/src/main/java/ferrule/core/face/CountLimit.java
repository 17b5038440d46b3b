package ferrule.core.face;

import ferrule.core.rulebook.Provenance;
import java.util.OptionalInt;

/**
 * One row of criteria: how many flaws of a kind and of some sizes may lie in a zone.
 *
 * @param zone where
 * @param kind defects or scratches
 * @param sizes which sizes
 * @param most how many; empty if any number may
 * @param provenance where the row comes from
 */
public record CountLimit(
    Zone zone, FlawKind kind, SizeRange sizes, OptionalInt most, Provenance provenance) {

  /** Whether so many flaws are more than may be. */
  public boolean isExceededBy(long count) {
    return most.isPresent() && count > most.getAsInt();
  }

  /** "no defect over 5 µm in zone B (cladding)", "at most 5 defects of 2 to 5 µm in ...". */
  public String shown() {
    String what;
    if (most.isEmpty()) {
      what = "any number of " + kind.plural();
    } else if (most.getAsInt() == 0) {
      what = "no " + kind.word();
    } else if (most.getAsInt() == 1) {
      what = "at most 1 " + kind.word();
    } else {
      what = "at most " + most.getAsInt() + " " + kind.plural();
    }
    return what + sizes.shown() + " in " + zone.shown();
  }
}
