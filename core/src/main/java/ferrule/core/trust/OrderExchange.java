package ferrule.core.trust;

import java.util.Arrays;

/**
 * Makes an order of deeds better by local exchange: two neighbouring runs of deeds, or of whole
 * visits, change places where that makes fibres wait less, walking counted, and no deed comes
 * before one it needs. One of the two runs is short, both are bounded, and so is the number of
 * looks in all.
 */
final class OrderExchange {

  private static final int SHORT_RUN = 3;
  private static final int LONG_RUN = 24;
  private static final long MOST_LOOKS = 2_000_000;
  private static final double LEAST_GAIN = 1e-6;
  private static final double LEAST_SHIFT = 1e-9;

  private final Workload work;
  private final int[] order;
  private final int[] at;

  /** When the deed at each place in the order is done, minutes. */
  private final double[] finish;

  /** For each group, its deed that is done last. */
  private final int[] last;

  /** How many fibres are freed before each place in the order. */
  private final long[] freed;

  private final long fibres;
  private long looks;

  /** An order to be made better; the array is used up. */
  OrderExchange(Workload work, int[] order) {
    this.work = work;
    this.order = order;
    at = new int[order.length];
    finish = new double[order.length];
    last = new int[work.groups.length];
    freed = new long[order.length + 1];
    fibres = Arrays.stream(work.fibres).asLongStream().sum();
    settle(0, order.length);
  }

  /** The order after all exchanges that help, or as many as the effort allows. */
  int[] improved() {
    boolean better = true;
    while (better && looks < MOST_LOOKS) {
      better = exchangeVisits();
      better |= exchangeDeeds();
    }
    tidy();
    return order;
  }

  /** Neighbouring deeds of one visit for which it makes no difference stand by their numbers. */
  private void tidy() {
    boolean moved = true;
    while (moved && looks < 2 * MOST_LOOKS) {
      moved = false;
      for (int i = 1; i < order.length; i++) {
        if (order[i - 1] > order[i] && work.place[order[i - 1]] == work.place[order[i]]) {
          moved |= exchange(i - 1, i, i + 1, LEAST_SHIFT);
        }
      }
    }
  }

  private boolean exchangeVisits() {
    boolean better = false;
    int[] starts = starts();
    for (int low = 0; low < starts.length - 1; low++) {
      for (int middle = low + 1; middle < Math.min(starts.length - 1, low + LONG_RUN); middle++) {
        int most = Math.min(starts.length - 1, middle + longest(middle - low));
        for (int high = middle + 1; high <= most && looks < MOST_LOOKS; high++) {
          if (exchange(starts[low], starts[middle], starts[high], -LEAST_GAIN)) {
            // Visits may have joined.
            better = true;
            starts = starts();
            most = Math.min(starts.length - 1, most);
          }
        }
      }
    }
    return better;
  }

  private boolean exchangeDeeds() {
    boolean better = false;
    for (int low = 0; low < order.length; low++) {
      for (int middle = low + 1; middle < Math.min(order.length, low + LONG_RUN); middle++) {
        int most = Math.min(order.length, middle + longest(middle - low));
        for (int high = middle + 1; high <= most && looks < MOST_LOOKS; high++) {
          better |= exchange(low, middle, high, -LEAST_GAIN);
        }
      }
    }
    return better;
  }

  /** How long the second of two runs may be if the first is so long: one of them stays short. */
  private static int longest(int first) {
    return first <= SHORT_RUN ? LONG_RUN : SHORT_RUN;
  }

  /** Where visits start in the order, and its end. */
  private int[] starts() {
    looks += order.length;
    int[] starts = new int[order.length + 1];
    int count = 0;
    for (int i = 0; i < order.length; i++) {
      if (i == 0 || work.place[order[i]] != work.place[order[i - 1]]) {
        starts[count++] = i;
      }
    }
    starts[count++] = order.length;
    return Arrays.copyOf(starts, count);
  }

  private double begins(int place) {
    return place == 0 ? 0 : finish[place - 1];
  }

  private double setUp(int from, int to) {
    return work.setUp(from < 0 ? -1 : order[from], order[to]);
  }

  /**
   * Exchanges two neighbouring runs if no deed then comes before one it needs and the fibres do not
   * wait longer, in all, than by the minutes given, which are below 0 if they must wait less.
   */
  private boolean exchange(int low, int middle, int high, double mostLater) {
    double begin = begins(low);
    // Minutes of each run without the setting up before its first deed.
    double first = finish[middle - 1] - begin - setUp(low - 1, low);
    double second = finish[high - 1] - finish[middle - 1] - setUp(middle - 1, middle);
    double secondBegins = setUp(low - 1, middle);
    double firstBegins = secondBegins + second + setUp(high - 1, low);
    double firstLater = firstBegins - setUp(low - 1, low);
    double secondLater = secondBegins - (finish[high - 1] - begin - second);
    double restLater = firstBegins + first - (finish[high - 1] - begin);
    if (high < order.length) {
      restLater += setUp(middle - 1, high) - setUp(high - 1, high);
    }
    // The end of all is later too, and counts for every fibre.
    double later = restLater * (fibres - freed[high] + fibres);
    later += firstLater * (freed[middle] - freed[low]);
    looks += 1;
    for (int i = middle; i < high; i++) {
      int deed = order[i];
      for (int need : work.needs[deed]) {
        if (at[need] >= low && at[need] < middle) {
          return false;
        }
      }
      for (int group : work.groupsOf[deed]) {
        if (last[group] == deed) {
          int then = lastWithin(group, low, middle);
          double change = then < 0 ? secondLater : finish[then] + firstLater - finish[i];
          later += work.fibres[group] * change;
        }
      }
      looks += 1 + work.groupsOf[deed].length;
    }
    if (later > mostLater) {
      return false;
    }
    int[] run = Arrays.copyOfRange(order, low, middle);
    System.arraycopy(order, middle, order, low, high - middle);
    System.arraycopy(run, 0, order, low + high - middle, run.length);
    settle(low, high);
    return true;
  }

  private int lastWithin(int group, int low, int middle) {
    int then = -1;
    for (int deed : work.groups[group]) {
      if (at[deed] >= low && at[deed] < middle) {
        then = Math.max(then, at[deed]);
      }
    }
    looks += work.groups[group].length;
    return then;
  }

  /** Brings all that is known of the order up to date after its deeds in a run changed. */
  private void settle(int low, int high) {
    for (int i = low; i < high; i++) {
      at[order[i]] = i;
    }
    double clock = begins(low);
    for (int i = low; i < order.length; i++) {
      clock += setUp(i - 1, i) + work.minutes[order[i]];
      looks++;
      if (i >= high && Math.abs(clock - finish[i]) < LEAST_SHIFT) {
        break;
      }
      finish[i] = clock;
    }
    for (int i = low; i < high; i++) {
      for (int group : work.groupsOf[order[i]]) {
        int latest = order[i];
        for (int deed : work.groups[group]) {
          latest = at[deed] > at[latest] ? deed : latest;
        }
        last[group] = latest;
        looks += work.groups[group].length;
      }
    }
    for (int i = low; i < high; i++) {
      freed[i + 1] = freed[i];
      for (int group : work.groupsOf[order[i]]) {
        freed[i + 1] += last[group] == order[i] ? work.fibres[group] : 0;
      }
    }
  }
}
