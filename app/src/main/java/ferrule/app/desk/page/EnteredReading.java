package ferrule.app.desk.page;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.uncertainty.Decision;
import ferrule.store.job.KeptReading;
import java.util.List;
import java.util.Optional;

/**
 * A reading that was entered, with what is decided and doubted about it.
 *
 * @param kept the entry
 * @param assessed the reading resolved; empty if it stands no more, or its fibre is not scheduled
 * @param doubts that hold it or its fibre back, seen from its fibre alone
 */
public record EnteredReading(
    KeptReading kept, Optional<AssessedReading> assessed, List<Doubt> doubts) {

  /** Copies the list. */
  public EnteredReading {
    doubts = List.copyOf(doubts);
  }

  /** The page on which it is corrected or withdrawn. */
  public String address() {
    return "/reading/" + kept.seq();
  }

  /** "1310 nm A-B". */
  public String caseShown() {
    return kept.reading().wavelength() + " " + kept.reading().direction().word();
  }

  /** "-5.60 dBm, a loss of 0.48 dB", "0.42 dB". */
  public String numbers() {
    String typed = FibreForm.inWords(kept);
    return kept.reading().hasLoss() || assessed.filter(AssessedReading::hasLoss).isEmpty()
        ? typed
        : typed + ", a loss of " + Show.db(assessed.get().lossDb()) + " dB";
  }

  /** The decision with its numbers, or why there is none. */
  public String decision() {
    if (kept.end().isPresent()) {
      KeptReading.End end = kept.end().get();
      return (end.withdrawn() ? "withdrawn: " : "corrected: ") + end.why();
    }
    if (assessed.isEmpty()) {
      return "not in the schedule";
    }
    AssessedReading reading = assessed.get();
    if (!reading.hasLoss()) {
      return "undecided: no loss can be had without its zero";
    }
    if (Double.isNaN(reading.limitDb())) {
      return "undecided: the rulebook has no limit for it";
    }
    return reading.decision().word()
        + ": limit "
        + Show.db(reading.limitDb())
        + " dB, expected "
        + Show.db(reading.expectedDb())
        + " dB, "
        + FibreEntry.marginInWords(reading)
        + (reading.current() ? "" : "; a later reading counts in its place");
  }

  /** Whether it is decided against. */
  public boolean isRejected() {
    return kept.stands() && assessed.filter(a -> a.decision() == Decision.REJECT).isPresent();
  }
}
