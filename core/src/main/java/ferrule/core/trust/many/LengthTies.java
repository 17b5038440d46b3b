package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * How often two honest fibres show one measured length. Told from this job: lengths typed in from
 * the schedule tie wherever the schedule does and tell nothing; lengths measured one by one seldom
 * tie, and between links of different scheduled length next to never.
 */
final class LengthTies {

  /**
   * Even between links of quite different length a tie may come of an honest mistake, so it is
   * never taken as rarer than this. Judgement.
   */
  private static final double RAREST = 1e-4;

  /** Pairs up to this far apart in test order serve to count ties. */
  private static final int NEAR = 8;

  private final ValueSets sets;
  private final double[] scheduledM;
  private final double step;
  private final double sd;
  private final double scale;
  private final double amongFibresOfALink;
  private final double amongLinksAlike;

  /** Looks at sets in test order. */
  LengthTies(ValueSets sets) {
    this.sets = sets;
    double[] lengths = new double[sets.size()];
    double[] ratios = new double[sets.size()];
    this.scheduledM = new double[sets.size()];
    int n = 0;
    for (int set = 0; set < sets.size(); set++) {
      scheduledM[set] = sets.scheduledM(set);
      if (sets.hasLength(set)) {
        lengths[n] = sets.lengthM(set);
        ratios[n++] = sets.lengthM(set) / scheduledM[set];
      }
    }
    this.step = PrintedStep.ofMany(Arrays.copyOf(lengths, n));
    this.scale = n == 0 ? 1 : OrderStats.quantileInPlace(ratios, n, 0.5);
    double[] off = new double[n];
    n = 0;
    for (int set = 0; set < sets.size(); set++) {
      if (sets.hasLength(set)) {
        off[n++] = sets.lengthM(set) - scale * scheduledM[set];
      }
    }
    double spread = n == 0 ? 0 : OrderStats.spread(off);
    this.sd = Math.max(Double.isFinite(spread) ? spread : 0, step / Math.sqrt(12));
    long[] tied = new long[2];
    long[] pairs = new long[2];
    for (int i = 0; i < sets.size(); i++) {
      for (int j = Math.max(0, i - NEAR); j < i; j++) {
        count(j, i, tied, pairs);
      }
    }
    this.amongFibresOfALink = (tied[0] + 1.0) / (pairs[0] + 1.0);
    this.amongLinksAlike = (tied[1] + 1.0) / (pairs[1] + 1.0);
  }

  private void count(int one, int other, long[] tied, long[] pairs) {
    if (!sets.hasLength(one) || !sets.hasLength(other)) {
      return;
    }
    boolean sameLink = sets.link(one) == sets.link(other);
    // Pairs with equal values are those in question: they do not vouch for themselves.
    if (!sameLink && apart(one, other) >= step || sets.sameValues(one, other)) {
      return;
    }
    int which = sameLink ? 0 : 1;
    pairs[which]++;
    tied[which] += sets.lengthM(one) == sets.lengthM(other) ? 1 : 0;
  }

  private double apart(int one, int other) {
    return Math.abs(scale * (scheduledM[one] - scheduledM[other]));
  }

  /** Chance that two honest fibres show one length; 1 if there is none to show. */
  double chance(int one, int other) {
    if (!sets.hasLength(one) || !sets.hasLength(other)) {
      return 1;
    }
    if (sets.link(one) == sets.link(other)) {
      return Math.min(1, amongFibresOfALink);
    }
    double apart = apart(one, other);
    double chance = Coincidence.printedAlike(sd, step) * Math.exp(-apart * apart / (4 * sd * sd));
    if (apart < step) {
      chance = Math.max(chance, amongLinksAlike);
    }
    return Math.min(1, Math.max(RAREST, Double.isNaN(chance) ? 1 : chance));
  }
}
