package ferrule.record.audit;

/**
 * Whether two numbers are the same but for how a Java platform rounds its logarithms: their last
 * digits may differ from machine to machine.
 */
final class Numbers {

  private static final double HAIR = 1e-9;

  private Numbers() {}

  static boolean same(double one, double other) {
    return one == other
        || Math.abs(one - other) <= HAIR * Math.max(1, Math.max(Math.abs(one), Math.abs(other)));
  }

  /** The same of texts; texts that are no numbers must be equal. */
  static boolean same(String one, String other) {
    if (one.equals(other)) {
      return true;
    }
    try {
      return same(Double.parseDouble(one), Double.parseDouble(other));
    } catch (NumberFormatException e) {
      return false;
    }
  }
}
