package ferrule.core.trust.paper;

import ferrule.core.plant.Instrument;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.ByLevel;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;

/**
 * {@code calibration-lapsed}: a source or meter was used after the day on which its calibration was
 * due. That day itself still counts as in date; days are UTC.
 */
public final class CalibrationFinder implements DoubtFinder {

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    ByLevel byLevel = ledger.byLevel();
    for (Instrument instrument : ledger.job().instruments()) {
      if (instrument.calibrationDue().isPresent()) {
        check(ledger, instrument, instrument.calibrationDue().get(), byLevel, out);
      }
    }
  }

  private static LocalDate day(Instant at) {
    return at.atZone(ZoneOffset.UTC).toLocalDate();
  }

  private static void check(
      Ledger ledger, Instrument instrument, LocalDate due, ByLevel byLevel, Consumer<Doubt> out) {
    Instant end = due.atStartOfDay(ZoneOffset.UTC).toInstant().plus(Duration.ofDays(1));
    List<AssessedReading> reach = new ArrayList<>();
    for (Zero zero : ledger.job().zeros()) {
      for (ZeroLevel level : zero.levels()) {
        boolean used =
            level.source().equals(instrument.id()) || level.meter().equals(instrument.id());
        if (used && !byLevel.latest(level).isBefore(end)) {
          for (AssessedReading reading : byLevel.of(level)) {
            if (!reading.reading().measuredAt().isBefore(end)) {
              reach.add(reading);
            }
          }
        }
      }
    }
    if (reach.isEmpty()) {
      return;
    }
    reach.sort(Comparator.comparingInt(AssessedReading::index));
    Instant last =
        reach.stream().map(r -> r.reading().measuredAt()).max(Instant::compareTo).orElseThrow();
    long days = Duration.between(end, last).toDays() + 1;
    out.accept(
        new Doubt(
            DoubtKind.CALIBRATION_LAPSED,
            new Subject(Subject.Type.INSTRUMENT, instrument.id()),
            true,
            Reach.of(reach),
            List.of(
                Evidence.of(
                    "what", "due " + due + ", used up to " + Steps.count(days, "day") + " later"),
                Evidence.of("calibration_due", due.toString()),
                Evidence.of("last_used_at", last.toString()),
                Evidence.of("days_over", days),
                Evidence.of("readings", reach.size())),
            Causes.ranked("the certificate was renewed and not handed in", "out of date when used"),
            new NextStep(
                    "certificate:" + instrument.id(),
                    "Hand in the current certificate of "
                        + instrument.id()
                        + "; if there is none, ask the owner whether a cross-check against an instrument in"
                        + " date will do",
                    "",
                    Handling.LOOK_UP)
                .withResults(
                    "A certificate turns up that was in date on " + day(last),
                    "There is none: it was used up to "
                        + Steps.count(days, "day")
                        + " out of date; the owner decides")));
  }
}
