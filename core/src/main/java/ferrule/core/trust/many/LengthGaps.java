package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.uncertainty.Conformity;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.IntFunction;

/**
 * {@code length-gap}: a measured length that disagrees with the schedule ({@link LengthAgreement})
 * and that nothing explains. What a wrong setting does to every length is taken out first. From
 * twelve fibres on, a gap must also lie beyond the job's own scatter times the alarm level for the
 * number of fibres: a job of 400 fibres must not ring by chance; but three times the agreement
 * always rings.
 */
final class LengthGaps {

  private static final int ENOUGH = 12;

  /** Chance that it rings on a perfect job. */
  static final double CHANCE = 0.005;

  private static final double PLAIN = 3;

  private final LengthProfile profile;
  private final FibreMisfit misfit;
  private final IntFunction<LengthLine> line;
  private final double level;

  /**
   * Looks at a job.
   *
   * @param misfit the job's own scatter
   * @param line what a wrong setting does to the lengths of a fibre
   */
  LengthGaps(LengthProfile profile, FibreMisfit misfit, IntFunction<LengthLine> line) {
    this.profile = profile;
    this.misfit = misfit;
    this.line = line;
    int fibres = 0;
    for (int slot = 0; slot < profile.slots(); slot++) {
      fibres += profile.hasLength(slot) ? 1 : 0;
    }
    // The scatter itself is known to about 1 / sqrt(fibres).
    this.level =
        fibres < ENOUGH
            ? -1
            : Conformity.alarmLevel(fibres, CHANCE, true) * (1 + 2 / Math.sqrt(fibres));
  }

  /**
   * Hands over the gaps.
   *
   * @param explained fibres of which another doubt says why their lengths are off
   */
  void find(BitSet explained, Consumer<Doubt> out) {
    for (int slot = 0; slot < profile.slots(); slot++) {
      // Between the shortest and the longest length no gap is larger.
      if (explained.get(slot)
          || !(isGap(slot, profile.shortestM(slot)) || isGap(slot, profile.longestM(slot)))) {
        continue;
      }
      AssessedReading worst = null;
      double worstGap = 0;
      for (AssessedReading reading : profile.ledger().readings(slot)) {
        double gap = Math.abs(gapM(slot, reading));
        if (gap > worstGap && rings(slot, reading)) {
          worst = reading;
          worstGap = gap;
        }
      }
      if (worst != null) {
        out.accept(doubt(slot, worst));
      }
    }
  }

  private boolean isGap(int slot, double lengthM) {
    return Math.abs(gapM(slot, lengthM))
        > LengthAgreement.allowedM(profile.scheduledM(profile.linkOf(slot)));
  }

  private boolean rings(int slot, AssessedReading reading) {
    int link = profile.linkOf(slot);
    double gap = Math.abs(gapM(slot, reading));
    double allowed = LengthAgreement.allowedM(profile.scheduledM(link));
    return reading.current()
        && gap > allowed
        && (gap > PLAIN * allowed
            || Math.abs(misfit.ofLength(reading.reading().lengthM(), slot, link)) > level);
  }

  /** NaN without a length. */
  private double gapM(int slot, AssessedReading reading) {
    return gapM(slot, reading.reading().lengthM());
  }

  private double gapM(int slot, double lengthM) {
    return line.apply(slot).back(lengthM) - profile.scheduledM(profile.linkOf(slot));
  }

  private Doubt doubt(int slot, AssessedReading worst) {
    FibreId fibre = profile.ledger().fibre(slot);
    Link link = profile.link(profile.linkOf(slot));
    double gap = gapM(slot, worst);
    double measured = worst.reading().lengthM();
    List<AssessedReading> reach =
        profile.ledger().readings(slot).stream().filter(r -> rings(slot, r)).toList();
    LengthLine own = line.apply(slot);
    boolean plain = own.equals(LengthLine.STRAIGHT);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            Decibels.shown(measured)
                + " m measured, "
                + (plain ? "" : Decibels.shown(own.back(measured)) + " m by the others, ")
                + Decibels.shown(link.lengthM())
                + " m scheduled"));
    evidence.add(Evidence.of("measured_m", measured));
    if (!plain) {
      evidence.add(Evidence.of("corrected_m", own.back(measured)));
    }
    evidence.add(Evidence.of("scheduled_m", link.lengthM()));
    evidence.add(Evidence.of("gap_m", gap));
    evidence.add(Evidence.of("allowed_m", LengthAgreement.allowedM(link.lengthM())));
    return new Doubt(
        DoubtKind.LENGTH_GAP,
        Subject.fibre(fibre),
        false,
        Reach.of(reach),
        evidence,
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
                    + Decibels.shown(LengthAgreement.allowedM(link.lengthM()))
                    + " m",
                "It comes out at "
                    + fibre
                    + " and measures "
                    + Decibels.shown(measured)
                    + " m again: look at splices and the schedule"));
  }
}
