package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/**
 * How far an honest length lies from its line: {@code sd^2 = fixed^2 + (share * length)^2}.
 *
 * <p>Usual, assumed: 0.3 m for the instrument and the step to which the schedule is rounded
 * (rectangular, {@code step^2 / 12}); 0.3 % for take-up from cable to cable. A job's own lengths
 * scale both: the fixed part by the shortest third of them, the share by the longest third.
 *
 * @param fixedM metres
 * @param share of the length
 */
record LengthScatter(double fixedM, double share) {

  private static final double INSTRUMENT_M = 0.3;
  private static final double TAKE_UP = 0.003;
  private static final int ENOUGH_IN_THIRD = 5;

  static LengthScatter usual(double stepM) {
    return new LengthScatter(Math.sqrt(INSTRUMENT_M * INSTRUMENT_M + stepM * stepM / 12), TAKE_UP);
  }

  double sdM(double scheduledM) {
    return Math.sqrt(fixedM * fixedM + share * share * scheduledM * scheduledM);
  }

  /**
   * Scaled to a job's own lengths.
   *
   * @param scheduledM what each was held against
   * @param gapM how far each lies from it, of either sign
   * @param size how many there are
   * @param part the part of them that decides: the distance within which that part lies
   * @param normal the distance within which that part of a standard normal law lies
   * @param least least factor
   */
  LengthScatter scaledTo(
      double[] scheduledM, double[] gapM, int size, double part, double normal, double least) {
    if (size < ENOUGH_IN_THIRD) {
      return this;
    }
    double[] lengths = Arrays.copyOf(scheduledM, size);
    double shortM = OrderStats.select(lengths, size, size / 3);
    double longM = OrderStats.select(lengths, size, size - 1 - size / 3);
    double[] all = new double[size];
    double[] nearby = new double[size];
    double[] far = new double[size];
    int near = 0;
    int distant = 0;
    for (int i = 0; i < size; i++) {
      all[i] = Math.abs(gapM[i]) / sdM(scheduledM[i]);
      if (scheduledM[i] <= shortM) {
        nearby[near++] = all[i];
      }
      if (scheduledM[i] >= longM) {
        far[distant++] = all[i];
      }
    }
    double own = Ranks.quantile(all, size, part);
    boolean apart = near >= ENOUGH_IN_THIRD && distant >= ENOUGH_IN_THIRD;
    double ofShort = apart ? Ranks.quantile(nearby, near, part) : own;
    double ofLong = apart ? Ranks.quantile(far, distant, part) : own;
    return new LengthScatter(
        fixedM * Math.max(least, ofShort / normal), share * Math.max(least, ofLong / normal));
  }
}
