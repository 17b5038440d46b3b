package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Every reading of a job is one and the same number, whatever fibre, direction and wavelength: such
 * a job has no scatter of its own to price a repeat by, and no fibres were told apart.
 */
final class OneNumber {

  private static final int ENOUGH = 12;

  /** Fibres of one kind differ by this much, dB, as duplex links do in practice (simulated). */
  private static final double USUAL_PART_DB = 0.11;

  /** Further from the expected loss, an instrument's floor may speak. */
  private static final double WILD_DB = 5;

  private OneNumber() {}

  /** The doubt of the whole job, if that many fibres are not alike by chance. */
  static Optional<Doubt> doubt(Ledger ledger) {
    List<AssessedReading> reach = new ArrayList<>();
    Set<FibreId> fibres = new HashSet<>();
    double value = Double.NaN;
    for (AssessedReading reading : ledger.current()) {
      if (!reading.hasLoss() || reading.slot() < 0) {
        continue;
      }
      if (!reach.isEmpty() && reading.lossDb() != value) {
        return Optional.empty();
      }
      value = reading.lossDb();
      double expected = reading.allowance().map(a -> a.expectedDb()).orElse(Double.NaN);
      if (Math.abs(value - expected) > WILD_DB) {
        return Optional.empty();
      }
      reach.add(reading);
      fibres.add(reading.reading().fibreId());
    }
    double step = PrintedStep.ofFew(new double[] {value});
    double expected = Math.pow(Coincidence.printedAlike(USUAL_PART_DB, step), fibres.size() - 1);
    if (fibres.size() < ENOUGH || !(expected < RepeatedValuesFinder.EXPECTED)) {
      return Optional.empty();
    }
    return Optional.of(doubt(reach, fibres.size(), value, expected));
  }

  private static Doubt doubt(
      List<AssessedReading> reach, int fibres, double value, double expected) {
    String shown = Decibels.shown(value) + " dB";
    return new Doubt(
        DoubtKind.REPEATED_VALUES,
        Subject.JOB,
        true,
        Reach.of(reach),
        List.of(
            Evidence.of(
                "what",
                "all "
                    + Steps.count(reach.size(), "reading")
                    + " of "
                    + Steps.count(fibres, "fibre")
                    + " are "
                    + shown
                    + ", at every wavelength and in every direction"),
            Evidence.of("values_equal", reach.size()),
            Evidence.of("fibres_in_list", fibres),
            Evidence.of("coincidences_expected", expected)),
        Causes.ranked(
            "a column was filled with one value",
            "the export lost the readings",
            "one fibre was read under all names"),
        new NextStep(
                "witness-job",
                "Compare the file with the meter's memory; a witnessed retest of three links is"
                    + " suggested",
                Steps.commonPlace(reach),
                3 * Handling.RETEST_LINK)
            .withResults(
                "The memory or the retest holds other values than " + shown,
                "Both hold " + shown + " for every fibre: ask what stood between the cords"));
  }
}
