package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;

/**
 * How the sets of values of many fibres scatter, and so how often two of them agree by chance.
 *
 * <p>Values are centred on the median of their neighbours in test order, so that what neighbours
 * share (zero, panel, cable) does not count as scatter. Then each value is freed from what the
 * values before it foretell (straight line, wild points left out), which leaves independent parts:
 * what the fibre's values share, what a direction's mating adds, what a wavelength adds. The chance
 * that two fibres agree in all is the product over the parts of {@link Coincidence#printedAlike}.
 */
final class ValueSpread {

  private static final int NEIGHBOURS = 32;
  private static final double WILD_SD = 3;
  private static final int MOST_FOR_SPREAD = 10_000;

  /** Standard deviation of a printing error of one step. */
  private static final double PRINTING = 1 / Math.sqrt(12);

  private final double[][] parts;
  private final double[] sd;

  private ValueSpread(double[][] parts, double[] sd) {
    this.parts = parts;
    this.sd = sd;
  }

  /**
   * Measures a spread.
   *
   * @param values by value, then by fibre in test order, dB; finite
   * @param step printed step, dB
   */
  static ValueSpread of(double[][] values, double step) {
    double[][] parts = new double[values.length][];
    double[] sd = new double[values.length];
    for (int j = 0; j < values.length; j++) {
      double[] part = centred(values[j]);
      for (int before = 0; before < j; before++) {
        free(part, parts[before], sd[before]);
      }
      parts[j] = part;
      sd[j] = Math.max(spread(part), PRINTING * step);
    }
    return new ValueSpread(parts, sd);
  }

  /**
   * The spread of some values; of very many, that of evenly taken ones tells it to one per cent.
   */
  private static double spread(double[] values) {
    int every = 1 + values.length / MOST_FOR_SPREAD;
    double[] some = new double[(values.length + every - 1) / every];
    for (int i = 0; i < some.length; i++) {
      some[i] = values[i * every];
    }
    return OrderStats.spread(some);
  }

  private static double[] centred(double[] values) {
    double[] centred = new double[values.length];
    int blocks = Math.max(1, values.length / NEIGHBOURS);
    double[] block = new double[Math.min(values.length, 2 * NEIGHBOURS)];
    for (int number = 0; number < blocks; number++) {
      int from = (int) ((long) values.length * number / blocks);
      int to = (int) ((long) values.length * (number + 1) / blocks);
      System.arraycopy(values, from, block, 0, to - from);
      double centre = OrderStats.quantileInPlace(block, to - from, 0.5);
      for (int i = from; i < to; i++) {
        centred[i] = values[i] - centre;
      }
    }
    return centred;
  }

  private static void free(double[] part, double[] from, double fromSd) {
    double wild = WILD_SD * spread(part);
    double squares = 0;
    double products = 0;
    for (int i = 0; i < part.length; i++) {
      if (Math.abs(from[i]) <= WILD_SD * fromSd && Math.abs(part[i]) <= wild) {
        squares += from[i] * from[i];
        products += from[i] * part[i];
      }
    }
    if (squares > 0) {
      double slope = products / squares;
      for (int i = 0; i < part.length; i++) {
        part[i] -= slope * from[i];
      }
    }
  }

  /** Chance that two fibres agree in all values. */
  double chance(double step) {
    double chance = 1;
    for (double one : sd) {
      chance *= Coincidence.printedAlike(one, step);
    }
    return chance;
  }

  /** Of such coincidences the share that lies as far out as this fibre, by its place. */
  double shareAsFarOut(int fibre) {
    double squared = 0;
    for (int j = 0; j < sd.length; j++) {
      double z = parts[j][fibre] / sd[j];
      squared += z * z;
    }
    return Coincidence.shareAsFarOut(sd.length, squared);
  }
}
