package ferrule.core.trust.many;

/**
 * The readings that the clock of one instrument stamped, every attempt, by their index in the
 * ledger.
 *
 * @param instrument its id
 * @param readings in the order handed in
 * @param byTime in order of time; of one instant, in the order handed in
 */
record Clock(String instrument, int[] readings, int[] byTime) {

  int size() {
    return readings.length;
  }
}
