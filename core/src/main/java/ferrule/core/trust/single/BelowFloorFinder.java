package ferrule.core.trust.single;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.Glass;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Figure;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.trust.many.LengthAgreement;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;

/**
 * {@code below-floor}: less loss than the glass alone must have, beyond the uncertainty: {@code A +
 * U < floor * L}. Under a two- or three-cord zero the cord pairs that the zero took out may lower
 * an honest reading, so their most is added on the left.
 *
 * <p>A negative loss is the plain case of it: below nothing at all.
 */
public final class BelowFloorFinder implements DoubtFinder {

  private static final double USUAL_PAIR_DB = 0.20;

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    for (int slot = 0; slot < ledger.slots(); slot++) {
      List<AssessedReading> reach = null;
      AssessedReading worst = null;
      double worstBy = 0;
      for (AssessedReading reading : ledger.readings(slot)) {
        if (!reading.current() || !reading.hasLoss()) {
          continue;
        }
        double by =
            below(ledger, reading, ledger.link(slot), reading.lossDb(), reading.expandedDb());
        if (by > 0) {
          if (reach == null) {
            reach = new ArrayList<>(2);
          }
          reach.add(reading);
          if (by > worstBy) {
            worst = reading;
            worstBy = by;
          }
        }
      }
      if (reach != null && worst != null) {
        out.accept(doubt(ledger, slot, reach, worst));
      }
    }
  }

  private static double floorDb(AssessedReading reading, Link link) {
    OptionalDouble floor =
        Glass.floorDbPerKm(link.category().kind(), reading.reading().wavelength());
    return floor.isPresent() ? floor.getAsDouble() * link.lengthKm() : 0;
  }

  /**
   * Whether a reading would lie below the floor if it had another loss.
   *
   * @param lossDb the loss to look at, dB
   * @param expandedDb its expanded uncertainty (k = 2), dB
   */
  public static boolean isBelow(
      Ledger ledger, AssessedReading reading, double lossDb, double expandedDb) {
    return reading.link().isPresent()
        && below(ledger, reading, reading.link().get(), lossDb, expandedDb) > 0;
  }

  private static double below(
      Ledger ledger, AssessedReading reading, Link link, double lossDb, double expandedDb) {
    double least = floorDb(reading, link) - expandedDb;
    if (lossDb >= least) {
      return 0;
    }
    return least - takenOutDb(ledger, reading, link) - lossDb;
  }

  private static double takenOutDb(Ledger ledger, AssessedReading reading, Link link) {
    int pairs = reading.zero().map(z -> z.method().cordPairs()).orElse(0);
    if (pairs == 0) {
      return 0;
    }
    return pairs
        * ledger
            .requirement()
            .rulebook()
            .referencePairLimit(link.category().kind())
            .map(Figure::value)
            .orElse(USUAL_PAIR_DB);
  }

  private static Doubt doubt(
      Ledger ledger, int slot, List<AssessedReading> reach, AssessedReading worst) {
    FibreId fibre = ledger.fibre(slot);
    Link link = ledger.link(slot);
    double floor = floorDb(worst, link);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            Decibels.shown(worst.lossDb())
                + " dB at "
                + worst.caseShown()
                + "; "
                + Decibels.shown(link.lengthM())
                + " m of glass alone lose at least "
                + Decibels.shown(floor)
                + " dB"));
    evidence.add(Evidence.of("loss_db", worst.lossDb()));
    evidence.add(Evidence.of("floor_db", floor));
    evidence.add(Evidence.of("uncertainty_db", worst.expandedDb()));
    evidence.add(Evidence.of("length_m", link.lengthM()));
    evidence.add(Evidence.of("taken_out_by_zero_db", takenOutDb(ledger, worst, link)));
    return new Doubt(
        DoubtKind.BELOW_FLOOR,
        Subject.fibre(fibre),
        true,
        Reach.of(reach),
        evidence,
        causes(worst, link),
        next(fibre, link, worst, reach));
  }

  /** Comparing lengths costs nothing, so a length that disagrees is named before the zero. */
  private static boolean ofAnotherLength(AssessedReading worst, Link link) {
    return worst.reading().hasLength()
        && LengthAgreement.disagrees(worst.reading().lengthM(), link.lengthM());
  }

  private static List<Cause> causes(AssessedReading worst, Link link) {
    if (ofAnotherLength(worst, link)) {
      return Causes.ranked(
          "another, shorter fibre was read",
          "the length in the schedule is wrong",
          "the zero is too low");
    }
    if (worst.lossDb() < 0) {
      return Causes.ranked(
          "zero "
              + worst.reading().reference()
              + " was set with a dirty or poorly seated connection",
          "the source rose after the zero was set",
          "the launch cord was disturbed at the source");
    }
    return Causes.ranked(
        "the zero is too low",
        "the length in the schedule is wrong",
        "another, shorter fibre was read",
        "a zero of another method recorded as this one");
  }

  private static NextStep next(
      FibreId fibre, Link link, AssessedReading worst, List<AssessedReading> reach) {
    return ofAnotherLength(worst, link)
        ? Steps.identify(fibre, link)
            .withResults(
                "The light comes out elsewhere, and the right fibre measures about "
                    + Decibels.shown(link.lengthM())
                    + " m",
                "It comes out at "
                    + fibre
                    + ", which measures "
                    + Decibels.shown(worst.reading().lengthM())
                    + " m: the schedule is wrong")
        : Steps.verify(worst.reading().reference(), reach, worst.lossDb() - floorDb(worst, link));
  }
}
