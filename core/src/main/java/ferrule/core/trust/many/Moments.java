package ferrule.core.trust.many;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.time.Instant;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * When and where every reading of a ledger was taken, as numbers by the index of the reading, and
 * the readings in order of time.
 */
final class Moments {

  private final long[] second;
  private final int[] nano;
  private final int[] link;
  private final int[] fibre;
  private final int[] byTime;
  private final int[] rank;
  private final int links;

  Moments(Ledger ledger) {
    List<AssessedReading> readings = ledger.readings();
    this.second = new long[readings.size()];
    this.nano = new int[second.length];
    this.link = new int[second.length];
    this.fibre = new int[second.length];
    Map<String, Integer> unscheduled = new HashMap<>();
    for (AssessedReading reading : readings) {
      int i = reading.index();
      Instant at = reading.reading().measuredAt();
      second[i] = at.getEpochSecond();
      nano[i] = at.getNano();
      fibre[i] = reading.reading().fibre();
      link[i] =
          reading.slot() >= 0
              ? ledger.linkOf(reading.slot())
              : link(reading.reading().link(), ledger, unscheduled);
    }
    this.links = ledger.job().links().size() + unscheduled.size();
    this.byTime = byTime(readings);
    this.rank = new int[byTime.length];
    for (int at = 0; at < byTime.length; at++) {
      rank[byTime[at]] = at;
    }
  }

  /** A link in the schedule has its place there as number, of whatever fibre the reading is. */
  private static int link(String id, Ledger ledger, Map<String, Integer> unscheduled) {
    int slot = ledger.slotOf(new FibreId(id, 1));
    return slot >= 0
        ? ledger.linkOf(slot)
        : unscheduled.computeIfAbsent(id, k -> ledger.job().links().size() + unscheduled.size());
  }

  private int[] byTime(List<AssessedReading> readings) {
    int[] order = new int[second.length];
    boolean ascending = true;
    long earliest = Long.MAX_VALUE;
    long latest = Long.MIN_VALUE;
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
      ascending &= i == 0 || !isBefore(i, i - 1);
      earliest = Math.min(earliest, second[i]);
      latest = Math.max(latest, second[i]);
    }
    if (ascending) {
      return order;
    }
    int bits = Long.SIZE - Long.numberOfLeadingZeros(order.length);
    if (latest - earliest >= 1L << Long.SIZE - 1 - bits) {
      // Years beyond reason.
      AssessedReading[] sorted = readings.toArray(AssessedReading[]::new);
      Arrays.sort(
          sorted,
          Comparator.comparing((AssessedReading r) -> r.reading().measuredAt())
              .thenComparingInt(AssessedReading::index));
      Arrays.setAll(order, at -> sorted[at].index());
      return order;
    }
    long[] keys = new long[order.length];
    for (int i = 0; i < keys.length; i++) {
      keys[i] = second[i] - earliest << bits | i;
    }
    Arrays.sort(keys);
    sortWithinSeconds(keys, bits);
    int places = (1 << bits) - 1;
    for (int at = 0; at < keys.length; at++) {
      order[at] = (int) keys[at] & places;
    }
    return order;
  }

  /** Where readings of one second do not run forward, their keys are made anew by nanoseconds. */
  private void sortWithinSeconds(long[] keys, int bits) {
    long places = (1L << bits) - 1;
    for (int from = 0; from < keys.length; ) {
      int to = from + 1;
      boolean ascending = true;
      while (to < keys.length && keys[to] >>> bits == keys[from] >>> bits) {
        ascending &= nano[(int) (keys[to] & places)] >= nano[(int) (keys[to - 1] & places)];
        to++;
      }
      if (!ascending) {
        for (int at = from; at < to; at++) {
          long place = keys[at] & places;
          keys[at] = (long) nano[(int) place] << bits | place;
        }
        Arrays.sort(keys, from, to);
      }
      from = to;
    }
  }

  private boolean isBefore(int one, int other) {
    return second[one] < second[other] || second[one] == second[other] && nano[one] < nano[other];
  }

  /** Number of readings. */
  int size() {
    return second.length;
  }

  /** When a reading was taken, in seconds since 1970, UTC. */
  double seconds(int reading) {
    return Times.seconds(second[reading], nano[reading]);
  }

  /** Whether two were taken at one instant. */
  boolean atOnce(int one, int other) {
    return second[one] == second[other] && nano[one] == nano[other];
  }

  /** Whether more than half of some readings were taken in the first second of a minute. */
  boolean areWholeMinutes(int[] readings, int size) {
    int whole = 0;
    for (int i = 0; i < size; i++) {
      whole += second[readings[i]] % 60 == 0 ? 1 : 0;
    }
    return whole > 0.5 * size;
  }

  /** A number for the link that a reading names: readings of one id share it. */
  int link(int reading) {
    return link[reading];
  }

  /** One more than the highest number of a link. */
  int links() {
    return links;
  }

  /** Number of the fibre within its link, as handed in. */
  int fibre(int reading) {
    return fibre[reading];
  }

  /** The reading at a place in order of time; of one instant, in the order handed in. */
  int at(int place) {
    return byTime[place];
  }

  /** The place of a reading in order of time. */
  int rank(int reading) {
    return rank[reading];
  }
}
