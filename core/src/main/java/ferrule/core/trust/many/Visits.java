package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.util.Arrays;
import java.util.List;

/**
 * Visits in one direction, in the order handed in. A visit is made of readings of one link that
 * follow one another: the time the instrument stayed at it.
 */
final class Visits {

  /** After a pause as long as this an instrument has come back. */
  private static final double STAY_S = 600;

  private final Moments moments;
  private final int[] readings;
  private final int[] first;
  private final double[] start;
  private final int size;

  /** The visits that a clock kept the time of in one direction. */
  Visits(Ledger ledger, Moments moments, Clock clock, boolean forward) {
    this.moments = moments;
    int[] all = new int[clock.size()];
    int count = 0;
    List<AssessedReading> assessed = ledger.readings();
    for (int reading : clock.readings()) {
      if (assessed.get(reading).forward() == forward) {
        all[count++] = reading;
      }
    }
    this.readings = Arrays.copyOf(all, count);
    int[] firsts = new int[count + 1];
    double[] starts = new double[count];
    int open = -1;
    double last = 0;
    for (int place = 0; place < count; place++) {
      double at = moments.seconds(readings[place]);
      if (open < 0
          || !(Math.abs(at - last) <= STAY_S)
          || moments.link(readings[place]) != moments.link(readings[firsts[open]])) {
        open++;
        firsts[open] = place;
        starts[open] = at;
      }
      starts[open] = Math.min(starts[open], at);
      last = at;
    }
    this.size = open + 1;
    firsts[size] = count;
    this.first = firsts;
    this.start = starts;
  }

  int size() {
    return size;
  }

  /** When a visit began, seconds since 1970. */
  double start(int visit) {
    return start[visit];
  }

  /** The number of the link visited. */
  int link(int visit) {
    return moments.link(readings[first[visit]]);
  }

  /** The place of a visit's first reading among the readings of all visits. */
  int first(int visit) {
    return first[visit];
  }

  /** One past the place of its last reading. */
  int end(int visit) {
    return first[visit + 1];
  }

  /** The reading at a place. */
  int reading(int place) {
    return readings[place];
  }
}
