package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import java.util.List;

/**
 * Something to do, ranked in the order in which to do it: what frees most fibres for least time
 * comes first, walking counted.
 *
 * @param rank from 1
 * @param what one sentence
 * @param where where exactly; empty if it does not matter
 * @param minutes about how long; walking and setting up not counted
 * @param frees fibres that nothing else holds back once this and the actions ranked above are done
 *     and turn out well
 * @param helps how many fibres it brings nearer, those it frees included
 * @param confirms which result would confirm the likeliest cause; empty if nobody has said
 * @param refutes which result would refute it; empty if nobody has said
 * @param stop number of the stop of the {@link Walk} at which it is done, from 1
 * @param place the place of that stop; empty if it can be done anywhere
 */
public record Action(
    int rank,
    String what,
    String where,
    double minutes,
    List<FibreId> frees,
    int helps,
    String confirms,
    String refutes,
    int stop,
    String place) {

  /** Copies the list. */
  public Action {
    frees = List.copyOf(frees);
  }
}
