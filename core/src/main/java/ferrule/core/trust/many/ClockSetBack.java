package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * Blocks of readings that run backwards while the rest runs forward, and which cannot have been
 * read then: the instrument was at other links, or the zero was not yet set, or the block fits
 * exactly into a hole that it left behind. A block that was only sorted elsewhere shows none of
 * these.
 */
final class ClockSetBack {

  /** Fewer visits than this show no order. */
  static final int ENOUGH_VISITS = 12;

  /** The same where only one block runs backwards. */
  private static final int ENOUGH_FOR_ONE = 7;

  private static final int MOST_BLOCKS = 3;
  private static final double MOST_OUT_OF_ORDER = 1.0 / 3;
  private static final double MOST_IN_ONE_BLOCK = 0.5;

  /** A step back no longer than this is a matter of sorting, not of clocks. */
  private static final double SMALL_STEP_S = 60;

  /** A shorter step back is the order of a few readings. */
  private static final double LEAST_STEP_BACK_S = 120;

  /** One visit that others leave no time for may be a slip of the hand; two are not. */
  private static final int LEAST_CROWDED = 2;

  /** A shorter block may fit by chance into a pause. */
  private static final int LONG = 5;

  /** Standard deviations by which time must be lacking: seldomer than once in 10,000 blocks. */
  private static final double DENSE = 4;

  /** No pace is taken as steadier than this, in parts of itself. */
  private static final double LEAST_SPREAD = 0.1;

  private final List<AssessedReading> readings;
  private final Order[] orders;

  private ClockSetBack(Ledger ledger, Moments moments, Clock clock) {
    this.readings = ledger.readings();
    this.orders =
        new Order[] {
          new Order(new Visits(ledger, moments, clock, true)),
          new Order(new Visits(ledger, moments, clock, false))
        };
  }

  /** The blocks of one clock. */
  static Optional<ImpossibleTimes> in(Ledger ledger, Moments moments, Clock clock) {
    return new ClockSetBack(ledger, moments, clock).find();
  }

  private Optional<ImpossibleTimes> find() {
    BitSet wrong = new BitSet();
    double shift = 0;
    for (int i = 0; i < orders.length; i++) {
      Order order = orders[i];
      for (Block block : order.blocks) {
        if (isImpossible(order, block, orders[1 - i])) {
          Visits visits = order.visits;
          for (int at = visits.first(block.from()); at < visits.end(block.to() - 1); at++) {
            wrong.set(visits.reading(at));
          }
          shift = Math.max(shift, order.stepBack(block));
        }
      }
    }
    return wrong.isEmpty()
        ? Optional.empty()
        : Optional.of(ImpossibleTimes.of(ImpossibleTimes.Why.SET_BACK, wrong, readings, shift));
  }

  /** Visits from {@code from} on and before {@code to} lie before the visit that precedes them. */
  private record Block(int from, int to) {
    int size() {
      return to - from;
    }
  }

  /**
   * Visits in one direction as handed in, parted into those that run forward and blocks that do
   * not.
   */
  private static final class Order {
    final Visits visits;

    /** None if they are too many for the file to be in order of time. */
    final List<Block> blocks;

    private final boolean[] inBlock;

    /** From start to start of visits that follow one another and run forward, seconds. */
    private final double[] paces;

    private boolean sorted;

    Order(Visits visits) {
      this.visits = visits;
      int size = visits.size();
      List<Block> found = new ArrayList<>();
      boolean[] backwards = new boolean[size];
      double[] forwardPaces = new double[size];
      int paceCount = 0;
      int outOfOrder = 0;
      double high = Double.NEGATIVE_INFINITY;
      double pace = middlePace(visits);
      for (int i = 0; i < size; ) {
        int end = i;
        while (end < size && visits.start(end) < high - SMALL_STEP_S) {
          end++;
        }
        if (end > i) {
          end = tail(visits, i, end, pace);
          found.add(new Block(i, end));
          Arrays.fill(backwards, i, end, true);
          outOfOrder += end - i;
          i = end;
          continue;
        }
        if (i > 0 && !backwards[i - 1]) {
          forwardPaces[paceCount++] = Math.max(0, visits.start(i) - visits.start(i - 1));
        }
        high = Math.max(high, visits.start(i));
        i++;
      }
      boolean inOrder =
          size >= (found.size() == 1 ? ENOUGH_FOR_ONE : ENOUGH_VISITS)
              && found.size() <= MOST_BLOCKS
              && outOfOrder <= mostOutOfOrder(visits, backwards, found.size()) * size
              && paceCount > 0;
      this.blocks = inOrder ? found : List.of();
      this.inBlock = inOrder ? backwards : new boolean[size];
      this.paces = Arrays.copyOf(forwardPaces, paceCount);
    }

    /**
     * Where a block ends that is longer than its step back, or holds a pause: its last visits come
     * after those before the block again, and only a leap forward by the step back and two paces
     * shows its end. Of several leaps the one nearest to that is taken.
     */
    private static int tail(Visits visits, int from, int to, double pace) {
      double back = visits.start(from - 1) - visits.start(from);
      int farthest = Math.min(visits.size() - 1, to + (to - from) + ENOUGH_VISITS);
      int best = to;
      double off = Double.POSITIVE_INFINITY;
      for (int end = to; end <= farthest; end++) {
        double leap = visits.start(end) - visits.start(end - 1);
        double apart = Math.abs(leap - back - 2 * pace);
        if (leap >= 0.8 * back && apart < off) {
          best = end;
          off = apart;
        }
      }
      return best;
    }

    /**
     * The share of visits that may run backwards: more where there is one block of links of its
     * own. Fibre by fibre, a file holds each link once more.
     */
    private static double mostOutOfOrder(Visits visits, boolean[] backwards, int blocks) {
      BitSet forward = new BitSet();
      for (int visit = 0; visit < backwards.length; visit++) {
        if (!backwards[visit]) {
          forward.set(visits.link(visit));
        }
      }
      boolean ownLinks = blocks == 1;
      for (int visit = 0; visit < backwards.length && ownLinks; visit++) {
        ownLinks = !backwards[visit] || !forward.get(visits.link(visit));
      }
      return ownLinks ? MOST_IN_ONE_BLOCK : MOST_OUT_OF_ORDER;
    }

    /** From start to start of visits that follow one another, in the middle, seconds. */
    private static double middlePace(Visits visits) {
      double[] paces = new double[Math.max(0, visits.size() - 1)];
      int count = 0;
      for (int i = 1; i < visits.size(); i++) {
        double seconds = visits.start(i) - visits.start(i - 1);
        if (seconds > 0) {
          paces[count++] = seconds;
        }
      }
      return count == 0 ? 0 : OrderStats.quantileInPlace(paces, count, 0.5);
    }

    boolean isForward(int visit) {
      return !inBlock[visit];
    }

    double stepBack(Block block) {
      return visits.start(block.from() - 1) - visits.start(block.from());
    }

    double pace(double share) {
      if (!sorted) {
        Arrays.sort(paces);
        sorted = true;
      }
      return OrderStats.quantile(paces, share);
    }
  }

  private boolean isImpossible(Order order, Block block, Order otherDirection) {
    if (block.size() < 3 || order.stepBack(block) < LEAST_STEP_BACK_S) {
      return false;
    }
    double quick = order.pace(0.05);
    int crowded = crowded(order, block, otherDirection, quick);
    return crowded >= Math.max(LEAST_CROWDED, block.size() / 4)
        || isTooDense(order, block)
        || (beforeZero(order, block) > 0.5 && beforeZeroForward(order) < 0.1)
        || ((block.size() >= LONG || crowded > 0) && fillsAHole(order, block, quick));
  }

  /**
   * Whether the block and the visits that it falls among leave less time than so many visits take
   * at the pace of all others, by {@value #DENSE} standard deviations of their sum; at the pace of
   * the block where that is quicker, for hurry is no matter of clocks. Only the lower half of the
   * paces tells the spread: pauses make none quicker.
   */
  private static boolean isTooDense(Order order, Block block) {
    Visits visits = order.visits;
    double first = Double.POSITIVE_INFINITY;
    double last = Double.NEGATIVE_INFINITY;
    for (int visit = block.from(); visit < block.to(); visit++) {
      first = Math.min(first, visits.start(visit));
      last = Math.max(last, visits.start(visit));
    }
    int among = 0;
    for (int visit = 0; visit < visits.size(); visit++) {
      boolean within = visits.start(visit) >= first && visits.start(visit) <= last;
      among += order.isForward(visit) && within ? 1 : 0;
    }
    int gaps = block.size() + among - 1;
    double pace = Math.min(order.pace(0.5), ownPace(visits, block));
    double spread =
        Math.max(LEAST_SPREAD * pace, (pace - order.pace(0.1)) / Conformity.coverage(0.9));
    return among >= LEAST_CROWDED && last - first < gaps * pace - DENSE * spread * Math.sqrt(gaps);
  }

  private static double ownPace(Visits visits, Block block) {
    double[] paces = new double[block.size() - 1];
    for (int i = 0; i < paces.length; i++) {
      paces[i] = visits.start(block.from() + i + 1) - visits.start(block.from() + i);
    }
    return OrderStats.quantileInPlace(paces, paces.length, 0.5);
  }

  private static boolean fillsAHole(Order order, Block block, double quickestPace) {
    Visits visits = order.visits;
    if (block.to() == visits.size() || block.size() > MOST_OUT_OF_ORDER * visits.size()) {
      return false;
    }
    double hole = visits.start(block.to()) - visits.start(block.from() - 1);
    double length = visits.start(block.to() - 1) - visits.start(block.from());
    double left = hole - length;
    return quickestPace > 0 && left >= quickestPace && left <= 4 * order.pace(0.5);
  }

  /**
   * How many visits of a block fall between two others that leave no time for them: others that run
   * forward, in the other direction those at other links.
   */
  private static int crowded(Order order, Block block, Order otherDirection, double quickestPace) {
    double[] starts = others(order, block, otherDirection);
    int[] between = new int[starts.length];
    for (int visit = block.from(); visit < block.to(); visit++) {
      int at = Arrays.binarySearch(starts, order.visits.start(visit));
      int before = at >= 0 ? at : -at - 2;
      if (before >= 0 && before + 1 < starts.length) {
        between[before]++;
      }
    }
    int crowded = 0;
    for (int i = 0; i + 1 < starts.length; i++) {
      if (starts[i + 1] - starts[i] < (between[i] + 1) * quickestPace) {
        crowded += between[i];
      }
    }
    return crowded;
  }

  private static double[] others(Order order, Block block, Order otherDirection) {
    BitSet links = new BitSet();
    for (int visit = block.from(); visit < block.to(); visit++) {
      links.set(order.visits.link(visit));
    }
    double[] starts = new double[order.visits.size() + otherDirection.visits.size()];
    int size = 0;
    for (int visit = 0; visit < order.visits.size(); visit++) {
      if (order.isForward(visit)) {
        starts[size++] = order.visits.start(visit);
      }
    }
    for (int visit = 0; visit < otherDirection.visits.size(); visit++) {
      if (otherDirection.isForward(visit) && !links.get(otherDirection.visits.link(visit))) {
        starts[size++] = otherDirection.visits.start(visit);
      }
    }
    double[] known = Arrays.copyOf(starts, size);
    Arrays.sort(known);
    return known;
  }

  private double beforeZero(Order order, Block block) {
    int before = 0;
    int from = order.visits.first(block.from());
    int to = order.visits.end(block.to() - 1);
    for (int at = from; at < to; at++) {
      before += isBeforeZero(order, at) ? 1 : 0;
    }
    return from == to ? 0 : (double) before / (to - from);
  }

  private double beforeZeroForward(Order order) {
    int before = 0;
    int all = 0;
    for (int visit = 0; visit < order.visits.size(); visit++) {
      if (order.isForward(visit)) {
        for (int at = order.visits.first(visit); at < order.visits.end(visit); at++) {
          all++;
          before += isBeforeZero(order, at) ? 1 : 0;
        }
      }
    }
    return all == 0 ? 0 : (double) before / all;
  }

  private boolean isBeforeZero(Order order, int at) {
    return ImpossibleTimes.isBeforeZero(readings.get(order.visits.reading(at)));
  }
}
