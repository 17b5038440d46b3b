package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** One fibre: its standing, why, and what it rests on. Reasons are put in words when asked for. */
public final class FibreJudgement {

  private final Ledger ledger;
  private final int slot;
  private final Standing standing;
  private final List<Doubt> doubts;
  private final BitSet blockedReadings;

  FibreJudgement(
      Ledger ledger, int slot, Standing standing, List<Doubt> doubts, BitSet blockedReadings) {
    this.ledger = ledger;
    this.slot = slot;
    this.standing = standing;
    this.doubts = doubts;
    this.blockedReadings = blockedReadings;
  }

  /** Place in the schedule, from 0. */
  public int slot() {
    return slot;
  }

  /** Which fibre. */
  public FibreId fibre() {
    return ledger.fibre(slot);
  }

  /** Its link. */
  public Link link() {
    return ledger.link(slot);
  }

  /** Where it stands. */
  public Standing standing() {
    return standing;
  }

  /** Every reading of it, replaced attempts included, in the order handed in. */
  public List<AssessedReading> readings() {
    return ledger.readings(slot);
  }

  /** Every doubt that touches it. */
  public List<Doubt> doubts() {
    return List.copyOf(doubts);
  }

  /** Whether a reading of it is held back by a blocking doubt. */
  public boolean blocked(AssessedReading reading) {
    return blockedReadings.get(reading.index());
  }

  /** Why it stands where it stands, each reason one sentence. */
  public List<String> reasons() {
    List<String> reasons = new ArrayList<>();
    for (AssessedReading reading : readings()) {
      if (reading.current() && reading.decision() == Decision.REJECT) {
        reasons.add(
            reading.caseShown()
                + ": "
                + Decibels.shown(reading.lossDb())
                + " dB is over the limit of "
                + Decibels.shown(reading.limitDb())
                + " dB"
                + (blocked(reading) ? ", but the reading is in doubt" : ""));
      }
    }
    for (Doubt doubt : doubts) {
      if (doubt.blocking()) {
        reasons.add(doubt.line());
      }
    }
    if (standing != Standing.PROVED) {
      reasons.addAll(openReasons());
    } else {
      reasons.add(provedReason());
    }
    return reasons;
  }

  private String provedReason() {
    AssessedReading nearest = null;
    int count = 0;
    for (AssessedReading reading : readings()) {
      // A reading at a wavelength that is not required may be undecided, and has then no margin.
      if (reading.current() && reading.decision() == Decision.ACCEPT) {
        count++;
        if (nearest == null || reading.marginDb() < nearest.marginDb()) {
          nearest = reading;
        }
      }
    }
    if (nearest == null) {
      return "Nothing is required";
    }
    return count
        + (count == 1 ? " reading" : " readings")
        + " accepted; least margin "
        + Decibels.shown(nearest.marginDb())
        + " dB at "
        + nearest.caseShown();
  }

  private List<String> openReasons() {
    List<String> reasons = new ArrayList<>(Standings.missing(ledger, slot));
    for (AssessedReading reading : readings()) {
      if (!reading.current() || reading.decision() != Decision.UNDECIDED || blocked(reading)) {
        continue;
      }
      if (!reading.hasLoss()) {
        reasons.add(reading.caseShown() + ": no loss can be had without its zero");
      } else if (Double.isNaN(reading.limitDb())) {
        String lacking =
            String.join(", ", reading.allowance().map(a -> a.lacking()).orElse(List.of()));
        reasons.add(reading.caseShown() + ": no limit, the rulebook lacks " + lacking);
      } else {
        reasons.add(
            reading.caseShown()
                + ": "
                + Decibels.shown(reading.lossDb())
                + " dB lies within the uncertainty of "
                + Decibels.shown(reading.expandedDb())
                + " dB of the limit of "
                + Decibels.shown(reading.limitDb())
                + " dB");
      }
    }
    for (Doubt doubt : doubts) {
      if (doubt.kind() == DoubtKind.FACE_UNSEEN) {
        reasons.add(doubt.line());
      }
    }
    return reasons;
  }

  /** The reading that counts for one case, if there is one. */
  public java.util.Optional<AssessedReading> current(Direction direction, Wavelength wavelength) {
    return readings().stream()
        .filter(
            r ->
                r.current()
                    && r.reading().direction() == direction
                    && r.reading().wavelength().equals(wavelength))
        .findFirst();
  }
}
