package ferrule.core.trust;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import org.jspecify.annotations.Nullable;

/**
 * The greedy rule for weighted set cover, with walking: each time the place is visited where the
 * deeds that are worth it bring most fibres forward per minute, setting up included, and there each
 * time the deed is done that does. A fibre counts for one over the number of deeds it still waits
 * for, so what frees it outright weighs most. Deeds come after those they need.
 */
final class GreedyOrder {

  /** After so many visits to a place, all is done there that can be done: the effort is bounded. */
  private static final int MOST_VISITS = 4;

  private record Offer(int what, double score, int version) {}

  private static final Comparator<Offer> BEST_FIRST =
      Comparator.comparingDouble((Offer o) -> -o.score()).thenComparingInt(Offer::what);

  private final Workload work;
  private final int[] placeOf;
  private final boolean stays;
  private final int[] waitsFor;
  private final double[] progress;
  private final int[] needsOpen;
  private final boolean[] done;
  private final int[] version;
  private final int[] changedBy;
  private final List<List<Integer>> atPlace = new ArrayList<>();
  private final int[] placeVersion;
  private final int[] placeVisits;
  private final BitSet placesTouched = new BitSet();
  private final List<Integer> order = new ArrayList<>();

  /** Stays at a place until all that can be done there is done. */
  static int[] staying(Workload work) {
    return new GreedyOrder(work, work.place, true).order();
  }

  /** Leaves a place for one where fibres come forward faster, walking counted. */
  static int[] leaving(Workload work) {
    return new GreedyOrder(work, work.place, false).order();
  }

  /** As if everything were at one place. */
  static int[] blindToWalking(Workload work) {
    return new GreedyOrder(work, new int[work.deeds()], true).order();
  }

  private GreedyOrder(Workload work, int[] placeOf, boolean stays) {
    this.work = work;
    this.placeOf = placeOf;
    this.stays = stays;
    int deeds = work.deeds();
    int places = 1;
    for (int place : placeOf) {
      places = Math.max(places, place + 1);
    }
    waitsFor = new int[work.groups.length];
    progress = new double[deeds];
    needsOpen = new int[deeds];
    done = new boolean[deeds];
    version = new int[deeds];
    changedBy = new int[deeds];
    Arrays.fill(changedBy, -1);
    placeVersion = new int[places];
    placeVisits = new int[places];
    for (int group = 0; group < work.groups.length; group++) {
      waitsFor[group] = work.groups[group].length;
      for (int deed : work.groups[group]) {
        progress[deed] += (double) work.fibres[group] / waitsFor[group];
      }
    }
    for (int place = 0; place < places; place++) {
      atPlace.add(new ArrayList<>());
    }
    for (int deed = 0; deed < deeds; deed++) {
      atPlace.get(placeOf[deed]).add(deed);
      needsOpen[deed] = work.needs[deed].length;
    }
  }

  /** All deeds in order. */
  private int[] order() {
    PriorityQueue<Offer> offers = new PriorityQueue<>(BEST_FIRST);
    placesTouched.set(0, atPlace.size());
    while (order.size() < work.deeds()) {
      placesTouched.stream().forEach(place -> offer(place, offers));
      placesTouched.clear();
      Offer best = standing(offers);
      if (best == null) {
        throw new IllegalStateException("deeds that need each other");
      }
      offers.remove();
      Offer next = standing(offers);
      visit(best.what(), next == null ? 0 : next.score());
    }
    return VisitOrder.array(order);
  }

  /** The best offer that still holds, left in the queue; null if there is none. */
  private @Nullable Offer standing(PriorityQueue<Offer> offers) {
    Offer best = offers.peek();
    while (best != null && best.version() != placeVersion[best.what()]) {
      offers.remove();
      best = offers.peek();
    }
    return best;
  }

  private void offer(int place, PriorityQueue<Offer> offers) {
    placeVersion[place]++;
    List<Integer> able = new ArrayList<>();
    for (int deed : atPlace.get(place)) {
      if (!done[deed] && needsOpen[deed] == 0) {
        able.add(deed);
      }
    }
    if (!able.isEmpty()) {
      offers.add(new Offer(place, score(able), placeVersion[place]));
    }
  }

  /** Fibres brought forward per minute by the deeds that are worth a visit, or by all of them. */
  private double score(List<Integer> able) {
    if (!stays) {
      able.sort(Comparator.comparingDouble((Integer deed) -> -rate(deed)));
    }
    double minutes = work.setUp(-1, able.get(0));
    double forward = 0;
    double best = 0;
    for (int deed : able) {
      minutes += work.minutes[deed];
      forward += progress[deed];
      best = Math.max(best, forward / minutes);
    }
    return stays ? forward / minutes : best;
  }

  private double rate(int deed) {
    return progress[deed] / work.minutes[deed];
  }

  private void visit(int place, double elsewhere) {
    placeVersion[place]++;
    placeVisits[place]++;
    placesTouched.set(place);
    boolean all = stays || placeVisits[place] >= MOST_VISITS;
    PriorityQueue<Offer> offers = new PriorityQueue<>(BEST_FIRST);
    for (int deed : atPlace.get(place)) {
      offerDeed(deed, offers);
    }
    boolean arrived = false;
    while (!offers.isEmpty()) {
      Offer best = offers.remove();
      int deed = best.what();
      if (done[deed] || best.version() != version[deed]) {
        continue;
      }
      if (arrived && !all && best.score() < elsewhere) {
        return;
      }
      arrived = true;
      take(deed, offers);
    }
  }

  private void offerDeed(int deed, PriorityQueue<Offer> offers) {
    version[deed]++;
    if (!done[deed] && needsOpen[deed] == 0) {
      offers.add(new Offer(deed, rate(deed), version[deed]));
    }
  }

  private void take(int deed, PriorityQueue<Offer> offers) {
    done[deed] = true;
    order.add(deed);
    for (int group : work.groupsOf[deed]) {
      waitsFor[group]--;
      int left = waitsFor[group];
      double more = left == 0 ? 0 : work.fibres[group] * (1.0 / left - 1.0 / (left + 1));
      for (int other : work.groups[group]) {
        progress[other] += more;
      }
    }
    for (int later : work.neededBy[deed]) {
      needsOpen[later]--;
    }
    for (int group : work.groupsOf[deed]) {
      for (int other : work.groups[group]) {
        changed(other, deed, offers);
      }
    }
    for (int later : work.neededBy[deed]) {
      changed(later, deed, offers);
    }
  }

  /** What a deed just done changed for another one: looked at once. */
  private void changed(int other, int deed, PriorityQueue<Offer> offers) {
    if (done[other] || changedBy[other] == deed) {
      return;
    }
    changedBy[other] = deed;
    placesTouched.set(placeOf[other]);
    if (placeOf[other] == placeOf[deed]) {
      offerDeed(other, offers);
    }
  }
}
