package ferrule.core.trust.many;

import ferrule.core.plant.Direction;
import ferrule.core.trust.AssessedReading;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Readings of one instrument whose times cannot be right, and why. Pure logic of times; nothing is
 * measured against the present.
 *
 * @param why in which way
 * @param readings those with impossible times, every attempt, in the order handed in
 * @param shiftSeconds how far the clock seems to have been off at least; 0 if it cannot be told
 */
record ImpossibleTimes(Why why, List<AssessedReading> readings, double shiftSeconds) {

  /** In which way times are impossible. */
  enum Why {
    SET_BACK("a block runs backwards against the order handed in"),
    AT_TWO_LINKS("two links were read at once with one instrument"),
    BEFORE_ZERO("all its readings come before its zeros were set, by the same time");

    private final String words;

    Why(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** Fewer visits than this show no order. */
  private static final int ENOUGH_VISITS = 12;

  private static final int MOST_BLOCKS = 3;
  private static final double MOST_OUT_OF_ORDER = 1.0 / 3;

  /** A step back no longer than this is a matter of sorting, not of clocks. */
  private static final double SMALL_STEP_S = 60;

  /** Clocks are set back by hours or days; a shorter step is the order of a few links. */
  private static final double LEAST_STEP_BACK_S = 600;

  /**
   * To change over to another link and back takes longer than this; three times the shortest
   * handling of {@link TooQuickFinder}, which is common practice without a source.
   */
  private static final double TWO_CHANGES_S = 45;

  /** No more readings than this are looked at between two of one link. */
  private static final int MOST_BETWEEN = 50;

  /** Finds what is wrong with the times of one instrument, if anything is. */
  static Optional<ImpossibleTimes> of(List<AssessedReading> handedIn) {
    Optional<ImpossibleTimes> found = setBack(handedIn);
    if (found.isEmpty()) {
      found = atTwoLinks(handedIn);
    }
    return found.isEmpty() ? beforeZeros(handedIn) : found;
  }

  // -- blocks that run backwards

  /** Visits from {@code from} on and before {@code to} lie before the visit that precedes them. */
  private record Block(int from, int to) {}

  /**
   * Blocks that run backwards while the rest runs forward, and which cannot have been read then:
   * the instrument was at other links, or the zero was not yet set, or the block fits exactly into
   * a hole that it left behind. A block that was only sorted elsewhere shows none of these.
   */
  private static Optional<ImpossibleTimes> setBack(List<AssessedReading> handedIn) {
    List<Order> orders = new ArrayList<>();
    for (Direction direction : Direction.values()) {
      orders.add(
          Order.of(
              Visit.of(
                  handedIn.stream().filter(r -> r.reading().direction() == direction).toList())));
    }
    List<AssessedReading> wrong = new ArrayList<>();
    double shift = 0;
    for (int i = 0; i < orders.size(); i++) {
      Order order = orders.get(i);
      for (Block block : order.blocks()) {
        if (isImpossible(order, block, orders.get(1 - i).forward())) {
          order.of(block).forEach(visit -> wrong.addAll(visit.readings()));
          shift = Math.max(shift, order.stepBack(block));
        }
      }
    }
    if (wrong.isEmpty()) {
      return Optional.empty();
    }
    wrong.sort(Comparator.comparingInt(AssessedReading::index));
    return Optional.of(new ImpossibleTimes(Why.SET_BACK, wrong, shift));
  }

  /**
   * Visits in one direction as handed in, parted into those that run forward and blocks that do
   * not.
   *
   * @param visits all
   * @param forward those that run forward
   * @param blocks the others; none if they are too many for the file to be in order of time
   * @param paces from start to start of visits that follow one another, ascending, seconds
   */
  private record Order(
      List<Visit> visits, List<Visit> forward, List<Block> blocks, double[] paces) {

    static Order of(List<Visit> visits) {
      List<Block> blocks = new ArrayList<>();
      List<Visit> forward = new ArrayList<>();
      List<Double> paces = new ArrayList<>();
      int outOfOrder = 0;
      double high = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < visits.size(); ) {
        int end = i;
        while (end < visits.size() && visits.get(end).start() < high - SMALL_STEP_S) {
          end++;
        }
        if (end > i) {
          end = tail(visits, i, end);
          blocks.add(new Block(i, end));
          outOfOrder += end - i;
          i = end;
          continue;
        }
        Visit visit = visits.get(i);
        if (!forward.isEmpty() && forward.get(forward.size() - 1) == visits.get(i - 1)) {
          paces.add(Math.max(0, visit.start() - visits.get(i - 1).start()));
        }
        forward.add(visit);
        high = Math.max(high, visit.start());
        i++;
      }
      boolean inOrder =
          visits.size() >= ENOUGH_VISITS
              && blocks.size() <= MOST_BLOCKS
              && outOfOrder <= MOST_OUT_OF_ORDER * visits.size()
              && !paces.isEmpty();
      return new Order(
          visits,
          inOrder ? forward : visits,
          inOrder ? blocks : List.of(),
          paces.stream().mapToDouble(p -> p).sorted().toArray());
    }

    /**
     * Where a block ends that is longer than its step back: its last visits come after those before
     * the block again, and only a leap forward by about the step back shows its end.
     */
    private static int tail(List<Visit> visits, int from, int to) {
      double leap = 0.8 * (visits.get(from - 1).start() - visits.get(from).start());
      int farthest = Math.min(visits.size() - 1, to + (to - from) + ENOUGH_VISITS);
      for (int end = to; end <= farthest; end++) {
        if (visits.get(end).start() - visits.get(end - 1).start() >= leap) {
          return end;
        }
      }
      return to;
    }

    List<Visit> of(Block block) {
      return visits.subList(block.from(), block.to());
    }

    double stepBack(Block block) {
      return visits.get(block.from() - 1).start() - visits.get(block.from()).start();
    }

    double pace(double share) {
      return OrderStats.quantile(paces, share);
    }
  }

  private static boolean isImpossible(Order order, Block block, List<Visit> otherDirection) {
    List<Visit> visits = order.of(block);
    if (visits.size() < 3 || order.stepBack(block) < LEAST_STEP_BACK_S) {
      return false;
    }
    Set<String> links = new HashSet<>();
    visits.forEach(visit -> links.add(visit.link()));
    List<Visit> others = new ArrayList<>(order.forward());
    for (Visit visit : otherDirection) {
      if (!links.contains(visit.link())) {
        others.add(visit);
      }
    }
    double quick = order.pace(0.05);
    return crowded(visits, others, quick) >= Math.max(3, visits.size() / 4)
        || (beforeZero(visits) > 0.5 && beforeZero(order.forward()) < 0.1)
        || fillsAHole(order, block, quick);
  }

  private static boolean fillsAHole(Order order, Block block, double quickestPace) {
    List<Visit> visits = order.visits();
    if (block.to() == visits.size() || block.to() - block.from() < 5) {
      return false;
    }
    double hole = visits.get(block.to()).start() - visits.get(block.from() - 1).start();
    double length = visits.get(block.to() - 1).start() - visits.get(block.from()).start();
    double left = hole - length;
    return quickestPace > 0 && left >= quickestPace && left <= 4 * order.pace(0.5);
  }

  /** How many of these visits fall between two others that leave no time for them. */
  private static int crowded(List<Visit> visits, List<Visit> others, double quickestPace) {
    double[] starts = others.stream().mapToDouble(Visit::start).sorted().toArray();
    int[] between = new int[starts.length];
    for (Visit visit : visits) {
      int at = Arrays.binarySearch(starts, visit.start());
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

  private static double beforeZero(List<Visit> visits) {
    int before = 0;
    int all = 0;
    for (Visit visit : visits) {
      for (AssessedReading reading : visit.readings()) {
        all++;
        before += isBeforeZero(reading) ? 1 : 0;
      }
    }
    return all == 0 ? 0 : (double) before / all;
  }

  private static boolean isBeforeZero(AssessedReading reading) {
    return reading
        .level()
        .filter(level -> reading.reading().measuredAt().isBefore(level.setAt()))
        .isPresent();
  }

  // -- one instrument at two links

  /** What was seen of overlaps on the way along the times of an instrument. */
  private static final class Overlaps {
    final Set<AssessedReading> wrong = new HashSet<>();
    final Set<String> links = new HashSet<>();
    int looks;
    int overlaps;

    void add(AssessedReading reading) {
      wrong.add(reading);
      links.add(reading.reading().link());
    }
  }

  /**
   * The instrument was at another link between two readings of one link that leave no time to
   * change over twice; or at two links at one instant, where stamps are finer than minutes. Both
   * only where this instrument's readings are mostly otherwise: stamps given to whole batches tell
   * nothing.
   */
  private static Optional<ImpossibleTimes> atTwoLinks(List<AssessedReading> handedIn) {
    if (handedIn.size() < 2 * ENOUGH_VISITS) {
      return Optional.empty();
    }
    List<AssessedReading> byTime = new ArrayList<>(handedIn);
    byTime.sort(
        Comparator.comparing((AssessedReading r) -> r.reading().measuredAt())
            .thenComparingInt(AssessedReading::index));
    Overlaps between = readBetween(byTime);
    Set<AssessedReading> wrong = new HashSet<>();
    if (between.overlaps >= 4
        && between.looks >= 2 * ENOUGH_VISITS
        && between.overlaps <= 0.4 * between.looks
        && between.links.size() >= 4) {
      wrong.addAll(between.wrong);
    }
    Overlaps at = sameInstants(byTime);
    if (at.overlaps >= 3 && at.overlaps <= 0.25 * at.looks && at.links.size() >= 4) {
      wrong.addAll(at.wrong);
    }
    if (wrong.isEmpty()) {
      return Optional.empty();
    }
    List<AssessedReading> readings = new ArrayList<>(wrong);
    readings.sort(Comparator.comparingInt(AssessedReading::index));
    return Optional.of(new ImpossibleTimes(Why.AT_TWO_LINKS, readings, 0));
  }

  /** Other links read between two readings of one link that follow each other shortly. */
  private static Overlaps readBetween(List<AssessedReading> byTime) {
    Overlaps overlaps = new Overlaps();
    Map<String, Integer> last = new HashMap<>();
    for (int i = 0; i < byTime.size(); i++) {
      AssessedReading reading = byTime.get(i);
      Integer before = last.put(reading.reading().link(), i);
      if (before == null) {
        continue;
      }
      AssessedReading first = byTime.get(before);
      double from = Times.seconds(first);
      double to = Times.seconds(reading);
      if (to - from > TWO_CHANGES_S) {
        continue;
      }
      overlaps.looks++;
      boolean overlap = false;
      for (int k = before + 1; k < i && k <= before + MOST_BETWEEN; k++) {
        double at = Times.seconds(byTime.get(k));
        if (at > from && at < to) {
          overlaps.add(byTime.get(k));
          overlap = true;
        }
      }
      if (overlap) {
        overlaps.overlaps++;
        addWithItsLike(byTime, before, overlaps);
        addWithItsLike(byTime, i, overlaps);
      }
    }
    return overlaps;
  }

  /** A reading and those of its link at the same instant, which is the other wavelengths. */
  private static void addWithItsLike(List<AssessedReading> byTime, int at, Overlaps overlaps) {
    AssessedReading reading = byTime.get(at);
    int from = at;
    while (from > 0 && at - from < MOST_BETWEEN && isAtOnce(byTime.get(from - 1), reading)) {
      from--;
    }
    int to = at + 1;
    while (to < byTime.size() && to - at < MOST_BETWEEN && isAtOnce(byTime.get(to), reading)) {
      to++;
    }
    for (AssessedReading like : byTime.subList(from, to)) {
      if (isOfLink(like, reading)) {
        overlaps.add(like);
      }
    }
  }

  /**
   * Instants at which more than one link was read, other than one link's last reading and the next
   * one's first; nothing where stamps are whole minutes.
   */
  private static Overlaps sameInstants(List<AssessedReading> byTime) {
    Overlaps overlaps = new Overlaps();
    int wholeMinutes = 0;
    for (AssessedReading reading : byTime) {
      wholeMinutes += reading.reading().measuredAt().getEpochSecond() % 60 == 0 ? 1 : 0;
    }
    if (wholeMinutes > 0.5 * byTime.size()) {
      return overlaps;
    }
    for (int from = 0; from < byTime.size(); ) {
      int to = from + 1;
      boolean several = false;
      while (to < byTime.size() && isAtOnce(byTime.get(from), byTime.get(to))) {
        several |= !isOfLink(byTime.get(from), byTime.get(to));
        to++;
      }
      overlaps.looks++;
      if (several && !isChangeOver(byTime, from, to)) {
        overlaps.overlaps++;
        byTime.subList(from, to).forEach(overlaps::add);
      }
      from = to;
    }
    return overlaps;
  }

  /** Whether the link read just before an instant ends there and the one read just after begins. */
  private static boolean isChangeOver(List<AssessedReading> byTime, int from, int to) {
    if (from == 0 || to == byTime.size()) {
      return true;
    }
    AssessedReading before = byTime.get(from - 1);
    AssessedReading after = byTime.get(to);
    for (AssessedReading reading : byTime.subList(from, to)) {
      if (!isOfLink(reading, before) && !isOfLink(reading, after)) {
        return false;
      }
    }
    return !isOfLink(before, after);
  }

  private static boolean isAtOnce(AssessedReading one, AssessedReading other) {
    return one.reading().measuredAt().equals(other.reading().measuredAt());
  }

  private static boolean isOfLink(AssessedReading one, AssessedReading other) {
    return one.reading().link().equals(other.reading().link());
  }

  // -- all before the zeros

  /** What was read under one zero. */
  private static final class UnderZero {
    int all;
    int before;
    double offset = Double.NEGATIVE_INFINITY;
  }

  /** All readings come before their zeros, under each zero by about the same time. */
  private static Optional<ImpossibleTimes> beforeZeros(List<AssessedReading> handedIn) {
    Map<String, UnderZero> zeros = new LinkedHashMap<>();
    Set<String> links = new HashSet<>();
    List<AssessedReading> wrong = new ArrayList<>();
    for (AssessedReading reading : handedIn) {
      UnderZero zero = zeros.computeIfAbsent(reading.reading().reference(), k -> new UnderZero());
      zero.all++;
      if (isBeforeZero(reading)) {
        zero.before++;
        double setAt = reading.level().map(l -> Times.seconds(l.setAt())).orElseThrow();
        zero.offset = Math.max(zero.offset, setAt - Times.seconds(reading));
        links.add(reading.reading().link());
        wrong.add(reading);
      }
    }
    if (wrong.size() < 8 || links.size() < 3) {
      return Optional.empty();
    }
    double most = Double.NEGATIVE_INFINITY;
    double least = Double.POSITIVE_INFINITY;
    for (UnderZero zero : zeros.values()) {
      if (zero.before < 0.8 * zero.all) {
        return Optional.empty();
      }
      most = Math.max(most, zero.offset);
      least = Math.min(least, zero.offset);
    }
    return most - least > Math.max(1800, 0.25 * most)
        ? Optional.empty()
        : Optional.of(new ImpossibleTimes(Why.BEFORE_ZERO, wrong, most));
  }
}
