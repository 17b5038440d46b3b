package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
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
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * {@code clock}: times of one instrument that cannot be right ({@link ImpossibleTimes}). The
 * instrument is the meter of the zero, or the source if no meter is on record.
 *
 * <p>It blocks: a reading at an impossible time cannot be tied to the zero and the verification
 * that vouch for it. How the file is sorted never rings it by itself.
 */
public final class ClockFinder implements DoubtFinder {

  private final Timeline timeline;

  /** A finder for the ledger of this timeline. */
  public ClockFinder(Timeline timeline) {
    this.timeline = timeline;
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    for (Timeline.Checked checked : timeline.clocks()) {
      Clock clock = checked.clock();
      checked.impossible().ifPresent(times -> doubt(clock.instrument(), clock.size(), times, out));
    }
  }

  private static void doubt(
      String instrument, int all, ImpossibleTimes times, Consumer<Doubt> out) {
    List<AssessedReading> reach =
        times.readings().stream().filter(AssessedReading::current).toList();
    if (reach.isEmpty()) {
      return;
    }
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", times.why().words()));
    evidence.add(Evidence.of("readings", reach.size()));
    evidence.add(Evidence.of("readings_of_the_instrument", all));
    evidence.add(Evidence.of("first_at", ends(reach, true)));
    evidence.add(Evidence.of("last_at", ends(reach, false)));
    if (times.shiftSeconds() > 0) {
      evidence.add(Evidence.of("off_by_at_least_min", times.shiftSeconds() / 60));
    }
    out.accept(
        new Doubt(
            DoubtKind.CLOCK,
            new Subject(Subject.Type.INSTRUMENT, instrument),
            true,
            Reach.of(reach),
            evidence,
            switch (times.why()) {
              case SET_BACK ->
                  Causes.ranked(
                      "the clock was set back, by a lost battery for instance",
                      "another instrument was used under this name",
                      "times were written down by hand");
              case AT_TWO_LINKS ->
                  Causes.ranked(
                      "two instruments were handed in under one name",
                      "the clock was set wrong for a part of the readings",
                      "times were written down by hand");
              case BEFORE_ZERO ->
                  Causes.ranked(
                      "the clock was wrong throughout",
                      "the time of the zero was written down later",
                      "the readings name another zero than the one used");
            },
            new NextStep(
                    "clock:" + instrument,
                    "Compare the clock of "
                        + instrument
                        + " with the true time and with the times of photographs taken that day; hand in"
                        + " the corrected times, or retest a few of these links first",
                    Steps.commonPlace(reach),
                    Handling.LOOK_UP)
                .withResults(confirms(times), refutes(times))));
  }

  private static String confirms(ImpossibleTimes times) {
    return switch (times.why()) {
      case SET_BACK ->
          times.shiftSeconds() > 0
              ? "The clock is off, or was off that day, by "
                  + Math.max(1, Math.round(times.shiftSeconds() / 60))
                  + " min or more"
              : "The clock is off, or was off that day";
      case AT_TWO_LINKS -> "Two instruments were in use, with serial numbers of their own";
      case BEFORE_ZERO -> "The clock is off by as much as the readings lie before their zero";
    };
  }

  private static String refutes(ImpossibleTimes times) {
    return switch (times.why()) {
      case SET_BACK -> "The clock was right: ask which instrument took these readings";
      case AT_TWO_LINKS -> "One instrument took them all: its clock was set in between";
      case BEFORE_ZERO -> "The clock is right: ask when the zero was set";
    };
  }

  private static String ends(List<AssessedReading> reach, boolean first) {
    Instant end = reach.get(0).reading().measuredAt();
    for (AssessedReading reading : reach) {
      Instant at = reading.reading().measuredAt();
      if (first ? at.isBefore(end) : at.isAfter(end)) {
        end = at;
      }
    }
    return end.toString();
  }
}
