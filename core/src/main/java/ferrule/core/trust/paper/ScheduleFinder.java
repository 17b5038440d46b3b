package ferrule.core.trust.paper;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.MissingReadings;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Readings against the schedule: {@code missing}, {@code unscheduled}, {@code double}.
 *
 * <p>A fibre read twice is usually a retest. It is a doubt that blocks when the two cannot be of
 * one fibre: measured lengths more than 1 m + 1 % apart, or two different losses at the same
 * instant.
 */
public final class ScheduleFinder implements DoubtFinder {

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    for (int slot = 0; slot < ledger.slots(); slot++) {
      missing(ledger, slot, out);
    }
    unscheduled(ledger, out);
    for (int slot = 0; slot < ledger.slots(); slot++) {
      doubles(ledger, slot, out);
    }
  }

  private static void missing(Ledger ledger, int slot, Consumer<Doubt> out) {
    if (MissingReadings.isComplete(ledger, slot)) {
      return;
    }
    List<String> missing = MissingReadings.of(ledger, slot);
    FibreId fibre = ledger.fibre(slot);
    Link link = ledger.link(slot);
    boolean limitless = ledger.required(link.category()).isEmpty();
    out.accept(
        new Doubt(
            DoubtKind.MISSING,
            Subject.fibre(fibre),
            false,
            Reach.ofFibres(List.of(fibre)),
            List.of(
                Evidence.of("what", String.join("; ", missing)),
                Evidence.of("readings_present", ledger.readings(slot).size())),
            Causes.ranked("not tested yet", "filed under another name", "dark by design"),
            limitless
                ? new NextStep(
                        "rulebook",
                        "Settle with the owner at which wavelengths and limits "
                            + link.category().label()
                            + " is to be tested",
                        "",
                        Handling.LOOK_UP)
                    .withResults(
                        "The owner wants it tested and names limits",
                        "The owner leaves it dark: take it out of the schedule")
                : new NextStep(
                        "test:" + link.id(),
                        "Test link " + link.id() + ", " + what(ledger, slot),
                        link.a().where(),
                        Handling.TEST_LINK)
                    .withResults(
                        "Nobody has the missing readings: the test gives them",
                        "They turn up under another name: correct the name, test nothing")));
  }

  private static String what(Ledger ledger, int slot) {
    Link link = ledger.link(slot);
    int first = slot - ledger.fibre(slot).fibre() + 1;
    for (int other = first; other < first + link.fibres(); other++) {
      if (!ledger.readings(other).isEmpty()) {
        return "what is missing of it";
      }
    }
    return "all of it";
  }

  private static void unscheduled(Ledger ledger, Consumer<Doubt> out) {
    Map<FibreId, List<AssessedReading>> byFibre = new LinkedHashMap<>();
    for (AssessedReading reading : ledger.unscheduled()) {
      byFibre.computeIfAbsent(reading.reading().fibreId(), k -> new ArrayList<>()).add(reading);
    }
    byFibre.forEach(
        (fibre, readings) ->
            out.accept(
                new Doubt(
                    DoubtKind.UNSCHEDULED,
                    Subject.fibre(fibre),
                    false,
                    Reach.of(readings),
                    List.of(Evidence.of("readings", readings.size())),
                    Causes.ranked(
                        "a slip in the name", "the schedule lacks it", "readings of another job"),
                    new NextStep(
                            "identify:" + fibre,
                            "Compare the name "
                                + fibre
                                + " with the label on the panel and the fibres that lack readings",
                            "",
                            Handling.LOOK_UP)
                        .withResults(
                            "A fibre whose name differs by a slip lacks just these readings",
                            "The panel has a fibre of this name: the schedule lacks it"))));
  }

  private static void doubles(Ledger ledger, int slot, Consumer<Doubt> out) {
    List<AssessedReading> readings = ledger.readings(slot);
    AssessedReading worstOld = null;
    AssessedReading worstNew = null;
    boolean blocking = false;
    int replaced = 0;
    for (AssessedReading old : readings) {
      if (old.current()) {
        continue;
      }
      replaced++;
      AssessedReading now = currentOf(readings, old);
      boolean contradictory = apartInLength(old, now) || sameInstant(old, now);
      boolean larger =
          worstOld == null
              || worstNew == null
              || Math.abs(old.lossDb() - now.lossDb())
                  > Math.abs(worstOld.lossDb() - worstNew.lossDb());
      if ((contradictory && !blocking) || (contradictory == blocking && larger)) {
        worstOld = old;
        worstNew = now;
      }
      blocking |= contradictory;
    }
    if (worstOld == null || worstNew == null) {
      return;
    }
    out.accept(doubleOf(ledger, slot, worstOld, worstNew, replaced, blocking));
  }

  private static Doubt doubleOf(
      Ledger ledger,
      int slot,
      AssessedReading old,
      AssessedReading now,
      int replaced,
      boolean blocking) {
    FibreId fibre = ledger.fibre(slot);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", what(old, now, blocking)));
    evidence.add(Evidence.of("attempts_replaced", replaced));
    if (old.hasLoss() && now.hasLoss()) {
      evidence.add(Evidence.of("earlier_loss_db", old.lossDb()));
      evidence.add(Evidence.of("latest_loss_db", now.lossDb()));
    }
    if (old.reading().hasLength() && now.reading().hasLength()) {
      evidence.add(Evidence.of("earlier_length_m", old.reading().lengthM()));
      evidence.add(Evidence.of("latest_length_m", now.reading().lengthM()));
    }
    List<AssessedReading> counting =
        ledger.readings(slot).stream().filter(AssessedReading::current).toList();
    return new Doubt(
        DoubtKind.DOUBLE,
        Subject.fibre(fibre),
        blocking,
        Reach.of(counting),
        evidence,
        blocking
            ? Causes.ranked(
                "the name was not moved on to the next fibre", "two fibres share a label")
            : Causes.ranked("a retest", "dirt cleaned away between the two", "an unstable joint"),
        blocking
            ? Steps.identify(fibre, ledger.link(slot))
                .withResults(
                    "A retest gives one of the two again, and a neighbour the other",
                    "Two fibres carry the label " + fibre + ": label and read both anew")
            : new NextStep(
                    "note:" + fibre,
                    "Note why " + fibre + " was read again; every attempt stays in the record",
                    "",
                    1)
                .withResults(
                    "The crew knows of the retest and why it was made",
                    "Nobody read it twice: find out which fibre was read"));
  }

  private static String what(AssessedReading old, AssessedReading now, boolean blocking) {
    String values =
        old.hasLoss() && now.hasLoss()
            ? Decibels.shown(old.lossDb())
                + " dB, then "
                + Decibels.shown(now.lossDb())
                + " dB at "
                + now.caseShown()
            : "twice at " + now.caseShown();
    if (!blocking) {
      return values;
    }
    return sameInstant(old, now)
        ? values + ", at the same instant"
        : values
            + ", over "
            + Decibels.shown(old.reading().lengthM())
            + " m and "
            + Decibels.shown(now.reading().lengthM())
            + " m";
  }

  private static AssessedReading currentOf(List<AssessedReading> readings, AssessedReading old) {
    for (AssessedReading reading : readings) {
      if (reading.current()
          && reading.reading().direction() == old.reading().direction()
          && reading.reading().wavelength().equals(old.reading().wavelength())) {
        return reading;
      }
    }
    throw new IllegalStateException("A replaced reading without its replacement");
  }

  private static boolean apartInLength(AssessedReading old, AssessedReading now) {
    if (!old.reading().hasLength() || !now.reading().hasLength()) {
      return false;
    }
    double one = old.reading().lengthM();
    double other = now.reading().lengthM();
    return Math.abs(one - other) > 1 + 0.01 * Math.max(one, other);
  }

  private static boolean sameInstant(AssessedReading old, AssessedReading now) {
    return old.reading().measuredAt().equals(now.reading().measuredAt())
        && old.hasLoss()
        && now.hasLoss()
        && Math.abs(old.lossDb() - now.lossDb()) > 0.005;
  }
}
