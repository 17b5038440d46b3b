package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import java.util.ArrayList;
import java.util.List;

/** Readings of one link that follow one another: the time the instrument stayed at it. */
final class Visit {

  /** After a pause as long as this an instrument has come back. */
  private static final double STAY_S = 600;

  private final List<AssessedReading> readings = new ArrayList<>(4);
  private double start = Double.POSITIVE_INFINITY;
  private double last;

  private Visit() {}

  /** The visits of a run of readings, in the order given. */
  static List<Visit> of(List<AssessedReading> readings) {
    List<Visit> visits = new ArrayList<>();
    Visit open = null;
    for (AssessedReading reading : readings) {
      double at = Times.seconds(reading);
      if (open == null || !open.goesOnWith(reading, at)) {
        open = new Visit();
        visits.add(open);
      }
      open.add(reading, at);
    }
    return visits;
  }

  private boolean goesOnWith(AssessedReading reading, double at) {
    return Math.abs(at - last) <= STAY_S
        && reading.reading().link().equals(readings.get(0).reading().link());
  }

  private void add(AssessedReading reading, double at) {
    readings.add(reading);
    start = Math.min(start, at);
    last = at;
  }

  List<AssessedReading> readings() {
    return readings;
  }

  /** Id of the link. */
  String link() {
    return readings.get(0).reading().link();
  }

  /** Seconds since 1970. */
  double start() {
    return start;
  }
}
