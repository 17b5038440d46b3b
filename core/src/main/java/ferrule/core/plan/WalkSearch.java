package ferrule.core.plan;

import ferrule.core.trust.Handling;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Looks for an order of stops with few walks and few zeros: an open path through all stops, each
 * once, where going from one to the next costs a walk for each technician who must move and a zero
 * if the cords must change.
 *
 * <p>Up to {@link #MOST_EXACT} stops the best order is found by dynamic programming over subsets
 * (Held and Karp 1962). Above that orders are built by always going on to the nearest stop, and
 * bettered by turning round and by moving stretches (2-opt, Croes 1958; Or 1976) while the effort
 * allows. The order in which the schedule first names the stops is bettered too, and the best one
 * is taken: going straight on where the schedule comes back later never costs more, for both parts
 * of the cost obey the triangle inequality.
 */
final class WalkSearch {

  /** Minutes that one walk costs: setting up at a place. */
  static final double WALK_MINUTES = Handling.SET_UP;

  /** Minutes that one zero costs. */
  static final double ZERO_MINUTES = Handling.RE_ZERO;

  /** With more stops the search is no longer exact. */
  static final int MOST_EXACT = 11;

  private static final long MOST_LOOKS = 20_000_000;
  private static final int LONGEST_MOVED = 3;

  /** With no more stops the nearest-next order is built from several. */
  private static final int FEW_STOPS = 500;

  private static final int MOST_STARTS = 32;

  /**
   * An order.
   *
   * @param order stops by their numbers
   * @param proved whether none is better
   */
  record Found(int[] order, boolean proved) {}

  private final int[] placeA;
  private final int[] placeB;
  private final int[] setup;

  /** Stops by numbers of places and setups. */
  WalkSearch(int[] placeA, int[] placeB, int[] setup) {
    this.placeA = placeA;
    this.placeB = placeB;
    this.setup = setup;
  }

  static WalkSearch of(List<WalkOrder.Key> keys) {
    Map<String, Integer> places = new HashMap<>();
    Map<ZeroSetup, Integer> setups = new HashMap<>();
    int[] a = new int[keys.size()];
    int[] b = new int[keys.size()];
    int[] setup = new int[keys.size()];
    for (int i = 0; i < a.length; i++) {
      WalkOrder.Key key = keys.get(i);
      a[i] = number(places, key.placeA());
      b[i] = number(places, key.placeB());
      setup[i] = number(setups, key.setup());
    }
    return new WalkSearch(a, b, setup);
  }

  private static <T> int number(Map<T, Integer> numbers, T of) {
    Integer known = numbers.putIfAbsent(of, numbers.size());
    return known == null ? numbers.size() - 1 : known;
  }

  int stops() {
    return setup.length;
  }

  /** How many technicians must walk from one stop to another: 0, 1 or 2. */
  int walks(int from, int to) {
    int straight = (placeA[from] == placeA[to] ? 1 : 0) + (placeB[from] == placeB[to] ? 1 : 0);
    int crossed = (placeA[from] == placeB[to] ? 1 : 0) + (placeB[from] == placeA[to] ? 1 : 0);
    return 2 - Math.max(straight, crossed);
  }

  /** Minutes between two stops. */
  double cost(int from, int to) {
    return walks(from, to) * WALK_MINUTES + (setup[from] == setup[to] ? 0 : ZERO_MINUTES);
  }

  /** What an order costs in all; stops may come again. */
  WalkOrder.Effort effort(int... order) {
    if (order.length == 0) {
      return new WalkOrder.Effort(0, 0, 0);
    }
    long walks = 2;
    long moves = 1;
    long zeros = 1;
    for (int i = 1; i < order.length; i++) {
      int more = walks(order[i - 1], order[i]);
      walks += more;
      moves += more > 0 ? 1 : 0;
      zeros += setup[order[i - 1]] == setup[order[i]] ? 0 : 1;
    }
    return new WalkOrder.Effort(walks, moves, zeros);
  }

  /** The best order found. Of it and the same backwards, what the schedule names first leads. */
  Found best() {
    boolean exact = stops() <= MOST_EXACT;
    int[] order = exact ? exact() : searched();
    if (order.length > 0 && order[0] > order[order.length - 1]) {
      reverse(order, 0, order.length - 1);
    }
    return new Found(order, exact);
  }

  /** The best order by search; not proved to be the best there is. */
  int[] searched() {
    int[] first = new int[stops()];
    Arrays.setAll(first, i -> i);
    int[] best = bettered(first);
    int starts = stops() <= FEW_STOPS ? Math.min(stops(), MOST_STARTS) : Math.min(stops(), 1);
    for (int start = 0; start < starts; start++) {
      int[] nearest = bettered(nearestNext(start));
      if (length(nearest) < length(best)) {
        best = nearest;
      }
    }
    return best;
  }

  private double length(int... order) {
    double sum = 0;
    for (int i = 1; i < order.length; i++) {
      sum += cost(order[i - 1], order[i]);
    }
    return sum;
  }

  /** The best order there is; of several the one found first. */
  int[] exact() {
    int n = stops();
    if (n == 0) {
      return new int[0];
    }
    double[][] least = new double[1 << n][n];
    int[][] before = new int[1 << n][n];
    for (double[] row : least) {
      Arrays.fill(row, Double.POSITIVE_INFINITY);
    }
    for (int i = 0; i < n; i++) {
      least[1 << i][i] = 0;
      before[1 << i][i] = -1;
    }
    for (int set = 1; set < 1 << n; set++) {
      for (int last = 0; last < n; last++) {
        if (least[set][last] == Double.POSITIVE_INFINITY) {
          continue;
        }
        for (int next = 0; next < n; next++) {
          int more = set | 1 << next;
          double sum = least[set][last] + cost(last, next);
          if (more != set && sum < least[more][next]) {
            least[more][next] = sum;
            before[more][next] = last;
          }
        }
      }
    }
    int all = (1 << n) - 1;
    int last = 0;
    for (int i = 1; i < n; i++) {
      if (least[all][i] < least[all][last]) {
        last = i;
      }
    }
    int[] order = new int[n];
    int set = all;
    for (int at = n - 1; at >= 0; at--) {
      order[at] = last;
      int earlier = before[set][last];
      set &= ~(1 << last);
      last = earlier;
    }
    return order;
  }

  /**
   * Always on to a nearest stop, of several to the one named first. Stops are kept by what they
   * share, so that this takes time in proportion to their number.
   */
  private int[] nearestNext(int start) {
    Map<List<Integer>, ArrayDeque<Integer>> shelves = new HashMap<>();
    for (int i = 0; i < stops(); i++) {
      for (List<Integer> key : shares(i)) {
        shelves.computeIfAbsent(key, k -> new ArrayDeque<>()).add(i);
      }
    }
    BitSet done = new BitSet();
    int[] order = new int[stops()];
    int at = start;
    for (int i = 0; i < order.length; i++) {
      order[i] = at;
      done.set(at);
      if (i + 1 < order.length) {
        at = nearest(at, done, shelves);
      }
    }
    return order;
  }

  private int nearest(int from, BitSet done, Map<List<Integer>, ArrayDeque<Integer>> shelves) {
    int best = done.nextClearBit(0);
    double least = cost(from, best);
    for (List<Integer> key : shares(from)) {
      ArrayDeque<Integer> shelf = shelves.getOrDefault(key, new ArrayDeque<>());
      while (!shelf.isEmpty() && done.get(shelf.getFirst())) {
        shelf.removeFirst();
      }
      if (!shelf.isEmpty()) {
        int candidate = shelf.getFirst();
        double cost = cost(from, candidate);
        if (cost < least || (cost == least && candidate < best)) {
          least = cost;
          best = candidate;
        }
      }
    }
    return best;
  }

  /** What a stop may share with another: places, a place and the zero, a place, the zero. */
  private List<List<Integer>> shares(int stop) {
    int a = Math.min(placeA[stop], placeB[stop]);
    int b = Math.max(placeA[stop], placeB[stop]);
    List<List<Integer>> keys = new ArrayList<>();
    keys.add(List.of(0, a, b));
    for (int place : a == b ? new int[] {a} : new int[] {a, b}) {
      keys.add(List.of(1, place, setup[stop]));
      keys.add(List.of(2, place));
    }
    keys.add(List.of(3, setup[stop]));
    return keys;
  }

  /** The order after every turn and move that helps, or as many as the effort allows. */
  private int[] bettered(int[] start) {
    int[] order = start.clone();
    long[] looks = {0};
    boolean better = true;
    while (better && looks[0] < MOST_LOOKS) {
      better = turned(order, looks);
      better |= moved(order, looks);
    }
    return order;
  }

  private double step(int[] order, int from, int to) {
    return from < 0 || to >= order.length ? 0 : cost(order[from], order[to]);
  }

  private boolean turned(int[] order, long[] looks) {
    boolean better = false;
    for (int low = 0; low < order.length - 1; low++) {
      for (int high = low + 1; high < order.length && looks[0]++ < MOST_LOOKS; high++) {
        double now = step(order, low - 1, low) + step(order, high, high + 1);
        double then =
            (low == 0 ? 0 : cost(order[low - 1], order[high]))
                + (high + 1 == order.length ? 0 : cost(order[low], order[high + 1]));
        if (then < now) {
          reverse(order, low, high);
          looks[0] += high - low;
          better = true;
        }
      }
    }
    return better;
  }

  private static void reverse(int[] order, int low, int high) {
    for (int i = low, j = high; i < j; i++, j--) {
      int kept = order[i];
      order[i] = order[j];
      order[j] = kept;
    }
  }

  /** Moves stretches of up to three stops elsewhere, as they are or turned round. */
  private boolean moved(int[] order, long[] looks) {
    boolean better = false;
    for (int size = 1; size <= Math.min(LONGEST_MOVED, order.length - 1); size++) {
      for (int low = 0; low + size <= order.length; low++) {
        for (int to = 0; to <= order.length && looks[0]++ < MOST_LOOKS; to++) {
          if ((to < low || to > low + size) && moves(order, low, low + size - 1, to)) {
            looks[0] += order.length;
            better = true;
          }
        }
      }
    }
    return better;
  }

  /** Moves the stretch from low to high between the stops at to-1 and to if that is shorter. */
  private boolean moves(int[] order, int low, int high, int to) {
    double out = step(order, low - 1, low) + step(order, high, high + 1);
    double joined =
        low == 0 || high + 1 == order.length ? 0 : cost(order[low - 1], order[high + 1]);
    double opened = to == 0 || to == order.length ? 0 : cost(order[to - 1], order[to]);
    double as = ends(order, low, high, to);
    double turned = ends(order, high, low, to);
    if (joined - out + Math.min(as, turned) - opened >= 0) {
      return false;
    }
    if (turned < as) {
      reverse(order, low, high);
    }
    int[] stretch = Arrays.copyOfRange(order, low, high + 1);
    if (to < low) {
      System.arraycopy(order, to, order, to + stretch.length, low - to);
      System.arraycopy(stretch, 0, order, to, stretch.length);
    } else {
      System.arraycopy(order, high + 1, order, low, to - high - 1);
      System.arraycopy(stretch, 0, order, to - stretch.length, stretch.length);
    }
    return true;
  }

  private double ends(int[] order, int first, int last, int to) {
    return (to == 0 ? 0 : cost(order[to - 1], order[first]))
        + (to == order.length ? 0 : cost(order[last], order[to]));
  }
}
