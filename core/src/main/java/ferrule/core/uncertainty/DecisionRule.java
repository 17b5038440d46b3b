package ferrule.core.uncertainty;

import java.util.Optional;

/**
 * How a reading is compared with its limit (JCGM 106:2012, clause 8; also ILAC-G8:09/2019). The
 * rule is agreed before measuring.
 */
public enum DecisionRule {
  /** Simple acceptance: the reading alone decides; the risk at the limit is shared, up to 50 %. */
  SIMPLE("simple", 0),
  /**
   * Guarded acceptance and guarded rejection: the guard band is the expanded uncertainty (k = 2).
   * Within it the reading stays undecided. At most 2.3 % of what is accepted is over the limit.
   */
  GUARDED("guarded", 1);

  /** Arithmetic noise of summing decimal fractions; far below any uncertainty, dB. */
  private static final double HAIR_DB = 1e-9;

  private final String word;
  private final double guard;

  DecisionRule(String word, double guard) {
    this.word = word;
    this.guard = guard;
  }

  /** As the job file writes it. */
  public String word() {
    return word;
  }

  /** Guard band as a multiple of the expanded uncertainty. */
  public double guard() {
    return guard;
  }

  /** The rule with this word, if there is one. */
  public static Optional<DecisionRule> ofWord(String word) {
    for (DecisionRule rule : values()) {
      if (rule.word.equalsIgnoreCase(word)) {
        return Optional.of(rule);
      }
    }
    return Optional.empty();
  }

  /**
   * Decides about one reading. Unrounded values are compared; a reading equal to its bound is
   * accepted.
   *
   * @param lossDb reading, dB; NaN leaves it undecided
   * @param limitDb limit, dB; NaN leaves it undecided
   * @param expandedDb expanded uncertainty (k = 2), dB, not negative
   */
  public Decision decide(double lossDb, double limitDb, double expandedDb) {
    if (Double.isNaN(lossDb) || Double.isNaN(limitDb)) {
      return Decision.UNDECIDED;
    }
    // Not 0 times what may be infinite for a reading out of all proportion: that is no number.
    double band = guard == 0 ? 0 : guard * expandedDb;
    if (lossDb <= limitDb - band + HAIR_DB) {
      return Decision.ACCEPT;
    }
    return lossDb > limitDb + band + HAIR_DB ? Decision.REJECT : Decision.UNDECIDED;
  }
}
