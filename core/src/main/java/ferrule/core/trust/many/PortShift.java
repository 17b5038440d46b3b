package ferrule.core.trust.many;

import java.util.BitSet;

/**
 * A run of ports whose readings fit the schedule of the ports some places further on.
 *
 * @param row of ports
 * @param from first port of the run, from 0
 * @param to one past the last
 * @param lag how many ports further on, -2 to 2, not 0
 * @param slots the fibres in reach
 * @param telling ports whose readings fit the other port and not their own
 * @param logRatio logarithm of the likelihood ratio of the run moved to the run as filed
 */
record PortShift(
    PortRow row, int from, int to, int lag, BitSet slots, int telling, double logRatio) {

  /** The link whose fibres were read under the name of that at a place of the row; -1 if none. */
  int truth(int at) {
    int other = at + lag;
    return other < 0 || other >= row.size() ? -1 : row.links()[other];
  }
}
