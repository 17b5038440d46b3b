package ferrule.core.trust.many;

import ferrule.core.uncertainty.Conformity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Finds fibres whose readings fit better exchanged.
 *
 * <p>Looked at are the fibres that do not fit their own link: beyond four deviations and beyond the
 * alarm level for the number of fibres, chance 1 in 200 a job, and by at least 1.5 m + 1 %. Two of
 * them are a pair if each fits the other's link within 3.5 deviations, and the log-likelihood
 * ratio, with {@code min(z^2/2, 20)} for each, exceeds {@code ln(n / 0.0002)}, {@code n} being all
 * pairs of links. If both losses are known they must not speak plainly against the exchange. Of
 * several partners the best fitting is taken, the same fibre number first.
 *
 * <p>Chance makes pairs of misfits too: were each misfit of any length that the schedule holds, the
 * sum of {@code p q} over all pairs of misfits would be expected, with {@code p} and {@code q} the
 * shares of links that each of them fits. Unless more than three times as many are found, none is
 * named. Two alone may so be named even where the schedule holds but two lengths.
 *
 * <p>A fibre without a measured length is placed by its loss, from five deviations on, and only
 * where no more than {@value #MOST_BY_LOSS} fibres are so far off.
 */
final class CrossedFibres {

  private static final double LEAST_DEVIATIONS = 4;
  private static final double LEAST_GAP_M = 1.5;
  private static final double LEAST_GAP_SHARE = 0.01;
  private static final double LEAST_DEVIATIONS_OF_LOSS = 5;
  private static final double FITS = 3.5;
  private static final double FITS_BY_CHANCE = 2;
  private static final double CAP = 20;
  private static final double LOSS_CAP = 8;
  private static final double LOSS_AGAINST = -6;

  /** Chance that it rings on a perfect job: its part of one in 200 for all that blocks. */
  static final double CHANCE = 0.0002;

  private static final double MOST_BY_CHANCE = 0.3;
  private static final double SAME_NUMBER = 12;
  private static final int MOST_PARTNER_LINKS = 64;
  private static final int MOST_PARTNERS_IN_LINK = 4;
  private static final int MOST_BY_LOSS = 300;

  private final LengthProfile profile;
  private final FibreMisfit misfit;
  private final BitSet explained;

  /** Misfits of one link: places in the list of misfits. */
  private record Group(int link, int from, int to) {}

  private record Candidate(CrossedPair pair, double cost) {}

  private CrossedFibres(LengthProfile profile, FibreMisfit misfit, BitSet explained) {
    this.profile = profile;
    this.misfit = misfit;
    this.explained = explained;
  }

  /** All pairs, in the order of their first fibres. */
  static List<CrossedPair> in(LengthProfile profile, FibreMisfit misfit, BitSet explained) {
    CrossedFibres crossed = new CrossedFibres(profile, misfit, explained);
    List<CrossedPair> pairs = new ArrayList<>(crossed.byLength());
    pairs.addAll(crossed.byLoss());
    pairs.sort(Comparator.comparingInt(CrossedPair::first));
    return pairs;
  }

  private List<CrossedPair> byLength() {
    double[] scheduled = linksWith(true);
    int[] off = misfits(true, LEAST_DEVIATIONS);
    if (off.length < 2) {
      return List.of();
    }
    int[] sorted = bySchedule(off);
    List<Group> groups = groups(sorted);
    double[] lengths = groups.stream().mapToDouble(g -> profile.scheduledM(g.link())).toArray();
    List<Candidate> candidates = new ArrayList<>();
    for (int slot : off) {
      double length = misfit.lengthM(slot);
      double reach = FITS * 1.01 * misfit.sdM(Math.max(0, length));
      int first = Ranks.below(lengths, length - reach);
      int end = Math.min(groups.size(), first + MOST_PARTNER_LINKS);
      for (int g = first; g < end && lengths[g] <= length + reach; g++) {
        partners(slot, groups.get(g), sorted, scheduled.length, candidates);
      }
    }
    List<CrossedPair> pairs = matched(candidates);
    double[] shares = new double[groups.size()];
    for (int g = 0; g < shares.length; g++) {
      double length = misfit.lengthM(sorted[groups.get(g).from()]);
      double reach = FITS_BY_CHANCE * misfit.sdM(Math.max(0, length));
      shares[g] =
          (double) Ranks.between(scheduled, length - reach, length + reach) / scheduled.length;
    }
    return byChance(shares, pairs) ? List.of() : pairs;
  }

  private List<CrossedPair> byLoss() {
    int[] off = misfits(false, LEAST_DEVIATIONS_OF_LOSS);
    if (off.length < 2 || off.length > MOST_BY_LOSS) {
      return List.of();
    }
    int links = linksWith(false).length;
    List<Candidate> candidates = new ArrayList<>();
    List<Group> groups = groups(off);
    for (int slot : off) {
      for (Group group : groups) {
        partners(slot, group, off, links, candidates);
      }
    }
    double[] shares = new double[groups.size()];
    for (int g = 0; g < shares.length; g++) {
      int fits = 0;
      for (int link = 0; link < profile.links(); link++) {
        fits += Math.abs(misfit.of(off[groups.get(g).from()], link)) < FITS_BY_CHANCE ? 1 : 0;
      }
      shares[g] = (double) fits / links;
    }
    List<CrossedPair> pairs = matched(candidates);
    return byChance(shares, pairs) ? List.of() : pairs;
  }

  private boolean byChance(double[] shares, List<CrossedPair> pairs) {
    double sum = 0;
    double squares = 0;
    for (double share : shares) {
      sum += share;
      squares += share * share;
    }
    Set<Long> links = new HashSet<>();
    for (CrossedPair pair : pairs) {
      links.add(
          (long) profile.linkOf(pair.first()) << Integer.SIZE | profile.linkOf(pair.second()));
    }
    return (sum * sum - squares) / 2 > MOST_BY_CHANCE * Math.max(1, links.size());
  }

  /** Scheduled lengths of the links that have fibres with (or without) a length; ascending. */
  private double[] linksWith(boolean length) {
    double[] lengths = new double[profile.links()];
    int size = 0;
    for (int link = 0; link < lengths.length; link++) {
      boolean has = false;
      for (int slot = profile.firstSlot(link); slot < profile.endSlot(link) && !has; slot++) {
        has = profile.hasLength(slot) == length;
      }
      if (has) {
        lengths[size++] = profile.scheduledM(link);
      }
    }
    double[] known = Arrays.copyOf(lengths, size);
    Arrays.sort(known);
    return known;
  }

  private int[] misfits(boolean byLength, double least) {
    int known = 0;
    for (int slot = 0; slot < profile.slots(); slot++) {
      known += profile.hasLength(slot) == byLength ? 1 : 0;
    }
    if (known == 0) {
      return new int[0];
    }
    double level = Math.max(least, Conformity.alarmLevel(known, CHANCE, true));
    int[] off = new int[known];
    int size = 0;
    for (int slot = 0; slot < profile.slots(); slot++) {
      if (profile.hasLength(slot) == byLength
          && !explained.get(slot)
          && Math.abs(misfit.of(slot, profile.linkOf(slot))) > level
          && !(Math.abs(misfit.lengthM(slot) - profile.scheduledM(profile.linkOf(slot)))
              < LEAST_GAP_M + LEAST_GAP_SHARE * profile.scheduledM(profile.linkOf(slot)))) {
        off[size++] = slot;
      }
    }
    return Arrays.copyOf(off, size);
  }

  private int[] bySchedule(int[] slots) {
    double[] lengths = new double[slots.length];
    for (int i = 0; i < slots.length; i++) {
      lengths[i] = profile.scheduledM(profile.linkOf(slots[i]));
    }
    int[] order = Ranks.ascending(lengths);
    int[] sorted = new int[slots.length];
    for (int i = 0; i < sorted.length; i++) {
      sorted[i] = slots[order[i]];
    }
    return sorted;
  }

  private List<Group> groups(int[] slots) {
    List<Group> groups = new ArrayList<>();
    for (int from = 0; from < slots.length; ) {
      int link = profile.linkOf(slots[from]);
      int to = from + 1;
      while (to < slots.length && profile.linkOf(slots[to]) == link) {
        to++;
      }
      groups.add(new Group(link, from, to));
      from = to;
    }
    return groups;
  }

  /** The fibres of a link that a fibre may be crossed with: that of the same number, a few more. */
  private void partners(int slot, Group group, int[] slots, int links, List<Candidate> out) {
    int link = profile.linkOf(slot);
    if (group.link() == link || !(Math.abs(misfit.of(slot, group.link())) < FITS)) {
      return;
    }
    int number = slot - profile.firstSlot(link);
    int tried = 0;
    for (int i = group.from(); i < group.to(); i++) {
      boolean same = slots[i] - profile.firstSlot(group.link()) == number;
      if (same || tried++ < MOST_PARTNERS_IN_LINK) {
        partner(slot, slots[i], same, links, out);
      }
    }
  }

  private void partner(int slot, int other, boolean same, int links, List<Candidate> out) {
    int link = profile.linkOf(slot);
    int otherLink = profile.linkOf(other);
    double there = misfit.of(slot, otherLink);
    double here = misfit.of(other, link);
    if (slot > other || !(Math.abs(here) < FITS)) {
      return;
    }
    double ratio =
        capped(misfit.of(slot, link), CAP)
            + capped(misfit.of(other, otherLink), CAP)
            - capped(there, CAP)
            - capped(here, CAP);
    if (ratio > Math.log(links * (links - 1.0) / 2 / CHANCE)) {
      double cost = there * there + here * here - (same ? SAME_NUMBER : 0);
      out.add(new Candidate(new CrossedPair(slot, other, ratio), cost));
    }
  }

  private static double capped(double z, double cap) {
    return Math.min(cap, z * z / 2);
  }

  /** The best fitting first, each fibre once. */
  private List<CrossedPair> matched(List<Candidate> candidates) {
    candidates.sort(
        Comparator.comparingDouble(Candidate::cost)
            .thenComparingInt(c -> c.pair().first())
            .thenComparingInt(c -> c.pair().second()));
    BitSet taken = new BitSet();
    List<CrossedPair> pairs = new ArrayList<>();
    for (Candidate candidate : candidates) {
      CrossedPair pair = candidate.pair();
      if (!taken.get(pair.first()) && !taken.get(pair.second()) && !lossesSpeakAgainst(pair)) {
        taken.set(pair.first());
        taken.set(pair.second());
        pairs.add(pair);
      }
    }
    return pairs;
  }

  private boolean lossesSpeakAgainst(CrossedPair pair) {
    double gain = lossGain(pair.first(), pair.second()) + lossGain(pair.second(), pair.first());
    return gain < LOSS_AGAINST;
  }

  /** How much likelier the loss of a fibre is on the other's link; 0 if it cannot be said. */
  private double lossGain(int slot, int other) {
    double own = misfit.losses().of(slot, profile.linkOf(slot));
    double there = misfit.losses().of(slot, profile.linkOf(other));
    return Double.isNaN(own) || Double.isNaN(there)
        ? 0
        : capped(own, LOSS_CAP) - capped(there, LOSS_CAP);
  }
}
