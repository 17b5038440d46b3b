package ferrule.core.trust;

import java.util.List;

/**
 * The order in which a crew does what there is to do, so that the fibres wait as little as can be
 * ({@link Workload#waiting}). Walking to a place and setting up there costs its minutes each time,
 * so a place is left before everything is done there only if that pays, the way back counted, or if
 * a deed elsewhere must come between.
 *
 * <p>Three starts, each greedy ({@link GreedyOrder}): one stays at a place until all is done, one
 * leaves it for a better one, one does not see walking. Each is made better by {@link
 * OrderExchange}, and the best is taken, so no start is better than what comes out. The effort is
 * bounded by counting looks, never by time: the same work always gives the same order.
 */
final class VisitOrder {

  private VisitOrder() {}

  /** All deeds in the order in which to do them. */
  static int[] of(Workload work) {
    int[] best = new OrderExchange(work, GreedyOrder.staying(work)).improved();
    for (int[] start : List.of(GreedyOrder.leaving(work), GreedyOrder.blindToWalking(work))) {
      int[] order = new OrderExchange(work, start).improved();
      if (work.waiting(order) < work.waiting(best) - 1e-6) {
        best = order;
      }
    }
    return best;
  }

  /** A list of numbers as an array. */
  static int[] array(List<Integer> list) {
    int[] array = new int[list.size()];
    for (int i = 0; i < array.length; i++) {
      array[i] = list.get(i);
    }
    return array;
  }
}
