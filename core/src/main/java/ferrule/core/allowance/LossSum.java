package ferrule.core.allowance;

import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import java.util.List;

/**
 * A sum of terms: a limit, an expected loss, or a planner's loss budget.
 *
 * @param terms in the order shown
 */
public record LossSum(List<Term> terms) {

  /** Copies the list. */
  public LossSum {
    terms = List.copyOf(terms);
  }

  /** The sum of the terms. Means add. */
  public LossDb total() {
    double sum = 0;
    for (Term term : terms) {
      sum += term.loss().value();
    }
    return new LossDb(sum);
  }

  /** Standard deviation of the sum, dB. Variances of different terms add. */
  public double sd() {
    double variance = 0;
    for (Term term : terms) {
      variance += term.variance();
    }
    return Math.sqrt(variance);
  }

  /**
   * What a power budget leaves over this sum; negative if the sum is more.
   *
   * @param budget transmit power less receiver sensitivity
   */
  public LossDb marginUnder(LossDb budget) {
    return budget.minus(total());
  }

  /** The power budget between the least a transmitter sends and the least a receiver needs. */
  public static LossDb powerBudget(LevelDbm leastSent, LevelDbm leastNeeded) {
    return leastSent.lossTo(leastNeeded);
  }
}
