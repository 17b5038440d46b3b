package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.List;

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

  private final double step;
  private final double sd;
  private final double scale;
  private final double amongFibresOfALink;
  private final double amongLinksAlike;

  /** Looks at sets in test order. */
  LengthTies(List<ValueSet> sets) {
    double[] lengths =
        sets.stream().filter(ValueSet::hasLength).mapToDouble(ValueSet::lengthM).toArray();
    this.step = PrintedStep.ofMany(lengths);
    double[] ratios = new double[lengths.length];
    int n = 0;
    for (ValueSet set : sets) {
      if (set.hasLength()) {
        ratios[n++] = set.lengthM() / set.link().lengthM();
      }
    }
    this.scale = lengths.length == 0 ? 1 : OrderStats.median(ratios);
    double[] off = new double[lengths.length];
    n = 0;
    for (ValueSet set : sets) {
      if (set.hasLength()) {
        off[n++] = set.lengthM() - scale * set.link().lengthM();
      }
    }
    double spread = off.length == 0 ? 0 : OrderStats.spread(off);
    this.sd = Math.max(Double.isFinite(spread) ? spread : 0, step / Math.sqrt(12));
    long[] tied = new long[2];
    long[] pairs = new long[2];
    for (int i = 0; i < sets.size(); i++) {
      for (int j = Math.max(0, i - NEAR); j < i; j++) {
        count(sets.get(j), sets.get(i), tied, pairs);
      }
    }
    this.amongFibresOfALink = (tied[0] + 1.0) / (pairs[0] + 1.0);
    this.amongLinksAlike = (tied[1] + 1.0) / (pairs[1] + 1.0);
  }

  private void count(ValueSet one, ValueSet other, long[] tied, long[] pairs) {
    // Pairs with equal values are those in question: they do not vouch for themselves.
    if (!one.hasLength() || !other.hasLength() || one.sameValuesAs(other)) {
      return;
    }
    boolean sameLink = one.link() == other.link();
    if (!sameLink && apart(one, other) >= step) {
      return;
    }
    int which = sameLink ? 0 : 1;
    pairs[which]++;
    tied[which] += one.lengthM() == other.lengthM() ? 1 : 0;
  }

  private double apart(ValueSet one, ValueSet other) {
    return Math.abs(scale * (one.link().lengthM() - other.link().lengthM()));
  }

  /** Chance that two honest fibres show one length; 1 if there is none to show. */
  double chance(ValueSet one, ValueSet other) {
    if (!one.hasLength() || !other.hasLength()) {
      return 1;
    }
    if (one.link() == other.link()) {
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
