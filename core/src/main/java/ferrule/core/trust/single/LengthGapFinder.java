package ferrule.core.trust.single;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import java.util.List;
import java.util.function.Consumer;

/**
 * {@code length-gap}: the measured length disagrees with the schedule by more than 2 m + 2 %. Fibre
 * is longer than cable by up to some 2 %, and schedules round (common practice, no source).
 */
public final class LengthGapFinder implements DoubtFinder {

  private static final double FIXED_M = 2;
  private static final double SHARE = 0.02;

  /** Whether a measured length disagrees with a scheduled one; both in metres. */
  static boolean disagrees(double measuredM, double scheduledM) {
    return Math.abs(measuredM - scheduledM) > FIXED_M + SHARE * scheduledM;
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    for (int slot = 0; slot < ledger.slots(); slot++) {
      Link link = ledger.link(slot);
      double allowed = FIXED_M + SHARE * link.lengthM();
      AssessedReading worst = null;
      double worstGap = 0;
      for (AssessedReading reading : ledger.readings(slot)) {
        if (!reading.current() || !reading.reading().hasLength()) {
          continue;
        }
        double gap = Math.abs(reading.reading().lengthM() - link.lengthM());
        if (gap > allowed && gap > worstGap) {
          worst = reading;
          worstGap = gap;
        }
      }
      if (worst != null) {
        out.accept(doubt(ledger, slot, worst, allowed));
      }
    }
  }

  private static Doubt doubt(Ledger ledger, int slot, AssessedReading worst, double allowed) {
    FibreId fibre = ledger.fibre(slot);
    Link link = ledger.link(slot);
    double gap = worst.reading().lengthM() - link.lengthM();
    List<AssessedReading> reach =
        ledger.readings(slot).stream()
            .filter(r -> r.current() && r.reading().hasLength())
            .filter(r -> Math.abs(r.reading().lengthM() - link.lengthM()) > allowed)
            .toList();
    return new Doubt(
        DoubtKind.LENGTH_GAP,
        Subject.fibre(fibre),
        false,
        Reach.of(reach),
        List.of(
            Evidence.of(
                "what",
                Decibels.shown(worst.reading().lengthM())
                    + " m measured, "
                    + Decibels.shown(link.lengthM())
                    + " m scheduled"),
            Evidence.of("measured_m", worst.reading().lengthM()),
            Evidence.of("scheduled_m", link.lengthM()),
            Evidence.of("gap_m", gap),
            Evidence.of("allowed_m", allowed)),
        gap < 0
            ? Causes.ranked(
                "another fibre or port was connected",
                "crossed at a splice or cassette",
                "the schedule is wrong",
                "a break")
            : Causes.ranked(
                "another fibre or port was connected",
                "crossed at a splice or cassette",
                "slack not counted in the schedule"),
        Steps.identify(fibre, link)
            .withResults(
                "The light comes out elsewhere, and the right fibre measures "
                    + Decibels.shown(link.lengthM())
                    + " m within "
                    + Decibels.shown(allowed)
                    + " m",
                "It comes out at "
                    + fibre
                    + " and measures "
                    + Decibels.shown(worst.reading().lengthM())
                    + " m again: look at splices and the schedule"));
  }
}
