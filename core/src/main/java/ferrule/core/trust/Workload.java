package ferrule.core.trust;

import java.util.Arrays;

/**
 * Deeds as plain numbers, for {@link VisitOrder}. Deeds, places and groups of fibres count from 0;
 * a group holds fibres that wait for the same deeds.
 */
final class Workload {

  /** The place of a deed that can be done anywhere. */
  static final int ANYWHERE = 0;

  /** For each deed, minutes, above 0. */
  final double[] minutes;

  /** For each deed, its place; {@link #ANYWHERE} costs no setting up. */
  final int[] place;

  /** For each deed, the deeds that must be done before it; no circle. */
  final int[][] needs;

  /** For each group, the deeds it waits for, each once. */
  final int[][] groups;

  /** For each group, how many fibres it holds. */
  final int[] fibres;

  /** Minutes to walk to a place and set up there. */
  final double setUp;

  /** For each deed, the groups that wait for it. */
  final int[][] groupsOf;

  /** For each deed, the deeds that must be done after it. */
  final int[][] neededBy;

  Workload(
      double[] minutes, int[] place, int[][] needs, int[][] groups, int[] fibres, double setUp) {
    this.minutes = minutes;
    this.place = place;
    this.needs = needs;
    this.groups = groups;
    this.fibres = fibres;
    this.setUp = setUp;
    this.groupsOf = reversed(groups, minutes.length);
    this.neededBy = reversed(needs, minutes.length);
  }

  private static int[][] reversed(int[][] lists, int size) {
    int[] counts = new int[size];
    for (int[] list : lists) {
      for (int item : list) {
        counts[item]++;
      }
    }
    int[][] reversed = new int[size][];
    Arrays.setAll(reversed, i -> new int[counts[i]]);
    for (int i = lists.length - 1; i >= 0; i--) {
      for (int item : lists[i]) {
        reversed[item][--counts[item]] = i;
      }
    }
    return reversed;
  }

  int deeds() {
    return minutes.length;
  }

  /** Minutes to walk to a deed's place and set up there, coming from another deed; -1 from none. */
  double setUp(int from, int deed) {
    boolean stays = place[deed] == ANYWHERE || (from >= 0 && place[from] == place[deed]);
    return stays ? 0 : setUp;
  }

  /**
   * Minutes until a fibre is freed and minutes until all is done, summed over all fibres, walking
   * counted. The less, the better.
   *
   * <p>The first part is the area above the curve of fibres freed against minutes. The second is
   * the same for all orders that visit each place once; it keeps a crew from coming back to a place
   * for the sake of few.
   */
  double waiting(int[] order) {
    double[] done = new double[deeds()];
    double clock = 0;
    int before = -1;
    for (int deed : order) {
      clock += setUp(before, deed) + minutes[deed];
      done[deed] = clock;
      before = deed;
    }
    double sum = 0;
    for (int group = 0; group < groups.length; group++) {
      double last = 0;
      for (int deed : groups[group]) {
        last = Math.max(last, done[deed]);
      }
      sum += fibres[group] * (last + clock);
    }
    return sum;
  }
}
