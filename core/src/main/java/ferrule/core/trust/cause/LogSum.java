package ferrule.core.trust.cause;

/** Logarithm of a sum of numbers given by their logarithms; of nothing, minus infinity. */
final class LogSum {

  /** What lies this far below the largest term adds nothing that a double could hold. */
  private static final double NOTHING = 40;

  private double most = Double.NEGATIVE_INFINITY;
  private double sum;

  void add(double log) {
    if (!(log > most - NOTHING) || log == Double.NEGATIVE_INFINITY) {
      return;
    }
    if (log <= most) {
      sum += Math.exp(log - most);
    } else {
      sum = sum * Math.exp(most - log) + 1;
      most = log;
    }
  }

  double value() {
    return sum > 0 ? most + Math.log(sum) : Double.NEGATIVE_INFINITY;
  }
}
