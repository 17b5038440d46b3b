package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * The instrument was at another link between two readings of one link that leave no time to change
 * over twice; or at two links at one instant, where stamps are finer than minutes. Both only where
 * this instrument's readings are mostly otherwise: stamps given to whole batches tell nothing.
 */
final class AtTwoLinks {

  /**
   * To change over to another link and back takes longer than this; three times the shortest
   * handling of {@link TooQuickFinder}, which is common practice without a source.
   */
  private static final double TWO_CHANGES_S = 45;

  /** No more readings than this are looked at between two of one link. */
  private static final int MOST_BETWEEN = 50;

  private static final int ENOUGH_VISITS = ClockSetBack.ENOUGH_VISITS;

  private final List<AssessedReading> readings;
  private final Moments moments;

  /** For every link the place of its reading last come by; -1 before and after each look. */
  private final int[] lastOfLink;

  AtTwoLinks(List<AssessedReading> readings, Moments moments) {
    this.readings = readings;
    this.moments = moments;
    this.lastOfLink = new int[moments.links()];
    Arrays.fill(lastOfLink, -1);
  }

  /** What was seen of overlaps on the way along the times of an instrument. */
  private final class Overlaps {
    final BitSet wrong = new BitSet();
    final BitSet links = new BitSet();
    int looks;
    int overlaps;

    void add(int reading) {
      wrong.set(reading);
      links.set(moments.link(reading));
    }
  }

  /** The readings of one clock that speak of two places at once. */
  Optional<ImpossibleTimes> in(Clock clock) {
    if (clock.size() < 2 * ENOUGH_VISITS) {
      return Optional.empty();
    }
    BitSet wrong = new BitSet();
    Overlaps between = readBetween(clock.byTime());
    if (between.overlaps >= 4
        && between.looks >= 2 * ENOUGH_VISITS
        && between.overlaps <= 0.4 * between.looks
        && between.links.cardinality() >= 4) {
      wrong.or(between.wrong);
    }
    Overlaps at = sameInstants(clock.byTime());
    if (at.overlaps >= 3 && at.overlaps <= 0.25 * at.looks && at.links.cardinality() >= 4) {
      wrong.or(at.wrong);
    }
    return wrong.isEmpty()
        ? Optional.empty()
        : Optional.of(ImpossibleTimes.of(ImpossibleTimes.Why.AT_TWO_LINKS, wrong, readings, 0));
  }

  /** Other links read between two readings of one link that follow each other shortly. */
  private Overlaps readBetween(int[] byTime) {
    Overlaps overlaps = new Overlaps();
    for (int i = 0; i < byTime.length; i++) {
      int link = moments.link(byTime[i]);
      int before = lastOfLink[link];
      lastOfLink[link] = i;
      if (before < 0) {
        continue;
      }
      double from = moments.seconds(byTime[before]);
      double to = moments.seconds(byTime[i]);
      if (to - from > TWO_CHANGES_S) {
        continue;
      }
      overlaps.looks++;
      boolean overlap = false;
      for (int k = before + 1; k < i && k <= before + MOST_BETWEEN; k++) {
        double at = moments.seconds(byTime[k]);
        if (at > from && at < to) {
          overlaps.add(byTime[k]);
          overlap = true;
        }
      }
      if (overlap) {
        overlaps.overlaps++;
        addWithItsLike(byTime, before, overlaps);
        addWithItsLike(byTime, i, overlaps);
      }
    }
    for (int reading : byTime) {
      lastOfLink[moments.link(reading)] = -1;
    }
    return overlaps;
  }

  /** A reading and those of its link at the same instant, which is the other wavelengths. */
  private void addWithItsLike(int[] byTime, int at, Overlaps overlaps) {
    int from = at;
    while (from > 0 && at - from < MOST_BETWEEN && moments.atOnce(byTime[from - 1], byTime[at])) {
      from--;
    }
    int to = at + 1;
    while (to < byTime.length && to - at < MOST_BETWEEN && moments.atOnce(byTime[to], byTime[at])) {
      to++;
    }
    for (int like = from; like < to; like++) {
      if (isOfLink(byTime[like], byTime[at])) {
        overlaps.add(byTime[like]);
      }
    }
  }

  /**
   * Instants at which more than one link was read, other than one link's last reading and the next
   * one's first; nothing where stamps are whole minutes.
   */
  private Overlaps sameInstants(int[] byTime) {
    Overlaps overlaps = new Overlaps();
    if (moments.areWholeMinutes(byTime, byTime.length)) {
      return overlaps;
    }
    for (int from = 0; from < byTime.length; ) {
      int to = from + 1;
      boolean several = false;
      while (to < byTime.length && moments.atOnce(byTime[from], byTime[to])) {
        several |= !isOfLink(byTime[from], byTime[to]);
        to++;
      }
      overlaps.looks++;
      if (several && !isChangeOver(byTime, from, to)) {
        overlaps.overlaps++;
        for (int at = from; at < to; at++) {
          overlaps.add(byTime[at]);
        }
      }
      from = to;
    }
    return overlaps;
  }

  /** Whether the link read just before an instant ends there and the one read just after begins. */
  private boolean isChangeOver(int[] byTime, int from, int to) {
    if (from == 0 || to == byTime.length) {
      return true;
    }
    int before = byTime[from - 1];
    int after = byTime[to];
    for (int at = from; at < to; at++) {
      if (!isOfLink(byTime[at], before) && !isOfLink(byTime[at], after)) {
        return false;
      }
    }
    return !isOfLink(before, after);
  }

  private boolean isOfLink(int one, int other) {
    return moments.link(one) == moments.link(other);
  }
}
