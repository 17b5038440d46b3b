package ferrule.core.trust.joint;

/**
 * An effect with what the data say of it.
 *
 * @param effect what
 * @param sizeDb estimated size, dB
 * @param sdDb its standard deviation, dB
 * @param logChance natural logarithm of the chance that honest scatter shows as much anywhere among
 *     the looks of its kind, divided by the chance allowed; below 0 it rings
 * @param fibres fibres it rests on
 */
record Suspect(Effect effect, double sizeDb, double sdDb, double logChance, int fibres) {

  /** Size in standard deviations. */
  double ratio() {
    return sizeDb / sdDb;
  }

  boolean rings() {
    return logChance < 0 && Math.abs(sizeDb) >= effect.leastSizeDb();
  }
}
