package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import java.util.List;

/**
 * Something to do, ranked: what frees most fibres for least time comes first.
 *
 * @param rank from 1
 * @param what one sentence
 * @param where place; empty if it does not matter
 * @param minutes about how long
 * @param frees fibres that nothing else holds back once this and the actions ranked above are done
 *     and turn out well
 * @param helps how many fibres it brings nearer, those it frees included
 */
public record Action(
    int rank, String what, String where, double minutes, List<FibreId> frees, int helps) {

  /** Copies the list. */
  public Action {
    frees = List.copyOf(frees);
  }
}
