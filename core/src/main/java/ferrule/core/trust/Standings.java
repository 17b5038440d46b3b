package ferrule.core.trust;

import ferrule.core.job.Requirement.Directions;
import ferrule.core.optics.Wavelength;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.SortedSet;
import java.util.function.Function;

/** What a fibre lacks, and where it stands. */
final class Standings {

  private Standings() {}

  /** The required readings that a fibre lacks, each in words. */
  static List<String> missing(Ledger ledger, int slot) {
    List<String> missing = new ArrayList<>();
    SortedSet<Wavelength> wavelengths = ledger.required(ledger.link(slot).category());
    if (wavelengths.isEmpty()) {
      missing.add("No required wavelength has a limit for " + ledger.link(slot).category().label());
    }
    boolean both = ledger.requirement().directions() == Directions.BOTH;
    List<AssessedReading> readings = ledger.readings(slot);
    for (Wavelength wavelength : wavelengths) {
      boolean forward = has(readings, true, wavelength.nm());
      boolean back = has(readings, false, wavelength.nm());
      if (!both && !forward && !back) {
        missing.add("No reading at " + wavelength);
      }
      if (both && !forward && !back) {
        missing.add("No reading at " + wavelength + " in either direction");
      } else if (both && !forward) {
        missing.add("No reading at " + wavelength + " A-B");
      } else if (both && !back) {
        missing.add("No reading at " + wavelength + " B-A");
      }
    }
    return missing;
  }

  /** Whether a fibre lacks a required reading; the same rule as {@link #missing}, without words. */
  static boolean isComplete(Ledger ledger, int slot) {
    SortedSet<Wavelength> wavelengths = ledger.required(ledger.link(slot).category());
    boolean both = ledger.requirement().directions() == Directions.BOTH;
    List<AssessedReading> readings = ledger.readings(slot);
    for (Wavelength wavelength : wavelengths) {
      boolean forward = has(readings, true, wavelength.nm());
      boolean back = has(readings, false, wavelength.nm());
      if (both ? !(forward && back) : !(forward || back)) {
        return false;
      }
    }
    return !wavelengths.isEmpty();
  }

  private static boolean has(List<AssessedReading> readings, boolean forward, int nm) {
    for (AssessedReading reading : readings) {
      if (reading.nm() == nm && reading.forward() == forward) {
        return true;
      }
    }
    return false;
  }

  /**
   * Where a fibre stands. A believed rejection outweighs a doubt about other readings; a doubt
   * outweighs a gap.
   *
   * @param blocked indices of readings held back by blocking doubts
   * @param faceUnseen whether a required end face is not graded
   */
  static Standing of(Ledger ledger, int slot, BitSet blocked, boolean faceUnseen) {
    return of(ledger, slot, blocked, faceUnseen, AssessedReading::decision);
  }

  /** The same with decisions that may be others than the readings' own. */
  static Standing of(
      Ledger ledger,
      int slot,
      BitSet blocked,
      boolean faceUnseen,
      Function<AssessedReading, Decision> decisions) {
    boolean doubtful = false;
    boolean undecided = false;
    for (AssessedReading reading : ledger.readings(slot)) {
      if (!reading.current()) {
        continue;
      }
      if (blocked.get(reading.index())) {
        doubtful = true;
        continue;
      }
      Decision decision = decisions.apply(reading);
      if (decision == Decision.REJECT) {
        return Standing.FAILED;
      } else if (decision == Decision.UNDECIDED) {
        undecided |=
            ledger.required(ledger.link(slot).category()).contains(reading.reading().wavelength());
      }
    }
    if (doubtful) {
      return Standing.DOUBTFUL;
    }
    return undecided || faceUnseen || !isComplete(ledger, slot) ? Standing.OPEN : Standing.PROVED;
  }
}
