package ferrule.core.trust;

import java.util.ArrayList;
import java.util.List;

/** Lists of causes in the order in which trade diagnostics rank them. */
public final class Causes {

  private Causes() {}

  /**
   * Causes, likeliest first. Each weighs half of the one before; together they weigh 1. The order
   * is the trade's, the weights are judgement: nothing has calibrated them. Why a single fibre
   * loses too much is weighed by likelihood instead ({@link ferrule.core.trust.cause.LossCauses}).
   */
  public static List<Cause> ranked(String... causes) {
    double sum = 2 - Math.pow(0.5, causes.length - 1);
    List<Cause> ranked = new ArrayList<>(causes.length);
    double weight = 1;
    for (String cause : causes) {
      ranked.add(new Cause(cause, weight / sum));
      weight /= 2;
    }
    return ranked;
  }
}
