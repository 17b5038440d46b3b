package ferrule.core.trust;

import java.util.ArrayList;
import java.util.List;

/**
 * The way of a crew through the ranked actions, place by place. A place is left before all is done
 * there only if that frees fibres sooner, the way back counted, or if something must be done
 * elsewhere first.
 *
 * @param stops in order
 */
public record Walk(List<Stop> stops) {

  /** Copies the list. */
  public Walk {
    stops = List.copyOf(stops);
  }

  /**
   * One visit to a place.
   *
   * @param number from 1
   * @param place its name; empty for what can be done anywhere, which needs no walking
   * @param minutes of the whole visit, walking and setting up included
   * @param setUpMinutes of these, for walking and setting up
   * @param actions what is done there, in order, each by its rank
   * @param frees fibres freed at this stop if all turns out well
   * @param freedByThen fibres freed at this stop and those before
   * @param minutesByThen minutes of this stop and those before
   */
  public record Stop(
      int number,
      String place,
      double minutes,
      double setUpMinutes,
      List<Integer> actions,
      int frees,
      int freedByThen,
      double minutesByThen) {

    /** Copies the list. */
    public Stop {
      actions = List.copyOf(actions);
    }

    /** The actions in few words: "action 1", "actions 2 to 9": ranks of one stop are a run. */
    public String actionsShown() {
      int first = actions.get(0);
      int last = actions.get(actions.size() - 1);
      return first == last
          ? "action " + first
          : "actions " + first + (last == first + 1 ? " and " : " to ") + last;
    }
  }

  /** The walk through actions in the order of their rank. */
  static Walk of(List<Action> actions) {
    List<Stop> stops = new ArrayList<>();
    int freed = 0;
    double minutes = 0;
    int from = 0;
    while (from < actions.size()) {
      Action first = actions.get(from);
      double setUp = first.place().isEmpty() ? 0 : Handling.SET_UP;
      double own = setUp;
      int frees = 0;
      List<Integer> ranks = new ArrayList<>();
      int next = from;
      for (; next < actions.size() && actions.get(next).stop() == first.stop(); next++) {
        Action action = actions.get(next);
        ranks.add(action.rank());
        own += action.minutes();
        frees += action.frees().size();
      }
      freed += frees;
      minutes += own;
      stops.add(new Stop(first.stop(), first.place(), own, setUp, ranks, frees, freed, minutes));
      from = next;
    }
    return new Walk(stops);
  }

  /** Minutes of the whole walk. */
  public double minutes() {
    return stops.isEmpty() ? 0 : stops.get(stops.size() - 1).minutesByThen();
  }
}
