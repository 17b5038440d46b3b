package ferrule.core.trust.many;

/** The step at which numbers were printed, told from the numbers. */
final class PrintedStep {

  private static final double[] STEPS = {
    0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0005, 0.0002, 0.0001
  };
  private static final double[] DECADES = {0.1, 0.01, 0.001, 0.0001};
  private static final double FINEST = 0.00001;
  private static final double NEARLY_ALL = 0.99;

  private PrintedStep() {}

  /** The coarsest usual step of which nearly all values are multiples. */
  static double ofMany(double[] values) {
    for (double step : STEPS) {
      if (nearlyAllAreMultiples(values, step)) {
        return step;
      }
    }
    return FINEST;
  }

  private static boolean nearlyAllAreMultiples(double[] values, double step) {
    int others = 0;
    for (double value : values) {
      if (!isMultiple(value, step) && !(values.length - ++others >= NEARLY_ALL * values.length)) {
        return false;
      }
    }
    return true;
  }

  /** The coarsest power of ten, 0.1 at most, of which all values are multiples. */
  static double ofFew(double[] values) {
    for (double step : DECADES) {
      boolean all = true;
      for (double value : values) {
        all &= isMultiple(value, step);
      }
      if (all) {
        return step;
      }
    }
    return FINEST;
  }

  private static boolean isMultiple(double value, double step) {
    double steps = value / step;
    return Math.abs(steps - Math.rint(steps)) < 1e-4;
  }
}
