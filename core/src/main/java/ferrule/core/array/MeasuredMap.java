package ferrule.core.array;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Where positions of end A came out, as measured behind one part of a link.
 *
 * <p>Positions that were not read are left out; nothing is assumed of them.
 */
public final class MeasuredMap {

  private static final int NOT_READ = -1;
  private static final int DARK = 0;

  private final int part;
  private final int[] arrivals;

  /**
   * A map.
   *
   * @param part index of the part behind which light came out
   * @param positions of the link
   * @param read what was read; positions beyond the link's are left out
   */
  MeasuredMap(int part, int positions, List<MeasuredPosition> read) {
    this.part = part;
    this.arrivals = new int[positions];
    Arrays.fill(arrivals, NOT_READ);
    for (MeasuredPosition one : read) {
      if (one.position() <= positions && one.arrivesAt() <= positions) {
        arrivals[one.position() - 1] = one.arrivesAt();
      }
    }
  }

  /** Index of the part behind which light came out. */
  int part() {
    return part;
  }

  /** Whether something came out for this position. */
  boolean lit(int position) {
    return arrivals[position - 1] > DARK;
  }

  /** Whether it was looked for and nothing came out. */
  boolean dark(int position) {
    return arrivals[position - 1] == DARK;
  }

  /** Where it came out; 0 if nowhere. */
  int at(int position) {
    return Math.max(DARK, arrivals[position - 1]);
  }

  int positions() {
    return arrivals.length;
  }

  /** How many positions were read. */
  int read() {
    return (int) Arrays.stream(arrivals).filter(a -> a != NOT_READ).count();
  }

  /** Positions that were read and did not come out where this map says. */
  List<Integer> unlike(PositionMap expected) {
    List<Integer> unlike = new ArrayList<>();
    for (int i = 1; i <= arrivals.length; i++) {
      if (arrivals[i - 1] != NOT_READ && arrivals[i - 1] != expected.at(i)) {
        unlike.add(i);
      }
    }
    return unlike;
  }

  /** Whether everything that came out at all came out where this map says. */
  boolean agrees(PositionMap expected) {
    for (int i = 1; i <= arrivals.length; i++) {
      if (lit(i) && at(i) != expected.at(i)) {
        return false;
      }
    }
    return true;
  }

  /** "positions 3 and 4 both came out at 5", which no fibres do; empty if there are none. */
  Optional<String> contradiction() {
    int[] from = new int[arrivals.length + 1];
    for (int i = 1; i <= arrivals.length; i++) {
      if (lit(i)) {
        if (from[at(i)] != 0) {
          return Optional.of(
              "positions " + from[at(i)] + " and " + i + " both came out at " + at(i));
        }
        from[at(i)] = i;
      }
    }
    return Optional.empty();
  }

  /** As a whole map, if every position came out and no two at one place. */
  Optional<PositionMap> whole() {
    return PositionMap.fault(arrivals).isEmpty()
        ? Optional.of(PositionMap.of(arrivals))
        : Optional.empty();
  }
}
