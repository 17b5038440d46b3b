package ferrule.record.chart;

import ferrule.core.allowance.Allowance;
import ferrule.core.optics.Decibels;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.List;

/**
 * One reading as it is drawn. Any number may be NaN: what is not known is not drawn.
 *
 * @param label beside the strip, "K001/1 1310 nm A-B"
 * @param lossDb the reading, dB
 * @param limitDb most loss permitted, dB
 * @param expectedDb expected loss, dB
 * @param expectedSdDb standard deviation of the expected loss, dB
 * @param expandedDb uncertainty of the reading (k = 2), dB
 * @param decision about the reading
 * @param believed false if a doubt holds it back
 */
public record LossMark(
    String label,
    double lossDb,
    double limitDb,
    double expectedDb,
    double expectedSdDb,
    double expandedDb,
    Decision decision,
    boolean believed) {

  /**
   * A reading as it was judged.
   *
   * @param believed false if a doubt holds it back
   */
  public static LossMark of(AssessedReading reading, boolean believed) {
    return new LossMark(
        reading.reading().fibreId() + " " + reading.caseShown(),
        reading.lossDb(),
        reading.limitDb(),
        reading.allowance().map(Allowance::expectedDb).orElse(Double.NaN),
        reading.allowance().map(Allowance::expectedSdDb).orElse(Double.NaN),
        reading.expandedDb(),
        reading.decision(),
        believed);
  }

  /** The readings of a fibre that count, in the order handed in. */
  public static List<LossMark> of(FibreJudgement fibre) {
    List<LossMark> marks = new ArrayList<>();
    for (AssessedReading reading : fibre.readings()) {
      if (reading.current()) {
        marks.add(of(reading, !fibre.blocked(reading)));
      }
    }
    return marks;
  }

  /** What the strip shows, in words. */
  public String described() {
    List<String> parts = new ArrayList<>();
    parts.add(Double.isNaN(lossDb) ? "no loss" : "loss " + Decibels.shown(lossDb) + " dB");
    if (!Double.isNaN(expandedDb)) {
      parts.add("uncertainty " + Decibels.shown(expandedDb) + " dB (k = 2)");
    }
    parts.add(Double.isNaN(limitDb) ? "no limit" : "limit " + Decibels.shown(limitDb) + " dB");
    if (!Double.isNaN(expectedDb)) {
      parts.add(
          "expected "
              + Decibels.shown(expectedDb)
              + " dB, spread "
              + Decibels.shown(expectedSdDb)
              + " dB");
    }
    parts.add(decision.word());
    if (!believed) {
      parts.add("held back by a doubt");
    }
    return String.join(", ", parts);
  }
}
