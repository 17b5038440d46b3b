package ferrule.core.plan;

import ferrule.core.plant.Link;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * In which order a crew of two visits pairs of places.
 *
 * @param stops the order advised
 * @param effort of the order advised
 * @param schedule effort of the links one by one as the schedule lists them
 * @param proved whether no order is better: all were weighed
 */
public record WalkOrder(List<Stop> stops, Effort effort, Effort schedule, boolean proved) {

  /**
   * All links between two places under one kind of zero.
   *
   * @param placeA where one technician stands; empty if not on record
   * @param placeB where the other stands
   * @param setup what the zero must fit
   * @param links the links
   */
  public record Stop(String placeA, String placeB, ZeroSetup setup, List<Link> links) {

    /** Copies the list. */
    public Stop {
      links = List.copyOf(links);
    }

    /** "within Cellar", "Cellar and Room 2". */
    public String places() {
      return placeA.equals(placeB)
          ? "within " + named(placeA)
          : named(placeA) + " and " + named(placeB);
    }

    private static String named(String place) {
      return place.isEmpty() ? "(no place on record)" : place;
    }
  }

  /**
   * What an order costs beside the tests.
   *
   * @param walks how often a technician sets up at another place
   * @param moves how often one of the two or both do
   * @param zeros how often a zero must be set
   */
  public record Effort(long walks, long moves, long zeros) {

    /** Minutes of the crew: setting up on each walk, and setting each zero. */
    public double minutes() {
      return walks * WalkSearch.WALK_MINUTES + zeros * WalkSearch.ZERO_MINUTES;
    }
  }

  /** Copies the list. */
  public WalkOrder {
    stops = List.copyOf(stops);
  }

  /** Minutes of the order advised over those of the schedule's; at most 1. */
  public double ratio() {
    return schedule.minutes() == 0 ? 1 : effort.minutes() / schedule.minutes();
  }

  /** The order for some links. */
  public static WalkOrder of(List<Link> links) {
    Map<Key, Integer> index = new LinkedHashMap<>();
    List<List<Link>> grouped = new ArrayList<>();
    List<Key> keys = new ArrayList<>();
    int[] visited = new int[links.size()];
    for (int i = 0; i < visited.length; i++) {
      Link link = links.get(i);
      Key key = Key.of(link);
      Integer known = index.putIfAbsent(key, keys.size());
      if (known == null) {
        keys.add(key);
        grouped.add(new ArrayList<>());
      }
      visited[i] = known == null ? keys.size() - 1 : known;
      grouped.get(visited[i]).add(link);
    }
    WalkSearch search = WalkSearch.of(keys);
    WalkSearch.Found found = search.best();
    List<Stop> stops = new ArrayList<>();
    for (int at : found.order()) {
      Key key = keys.get(at);
      stops.add(new Stop(key.placeA, key.placeB, key.setup, grouped.get(at)));
    }
    return new WalkOrder(
        stops, search.effort(found.order()), search.effort(visited), found.proved());
  }

  /** Two places, in the order of their names, and a zero. */
  record Key(String placeA, String placeB, ZeroSetup setup) {
    static Key of(Link link) {
      String a = link.a().place();
      String b = link.b().place();
      return a.compareTo(b) <= 0
          ? new Key(a, b, ZeroSetup.of(link))
          : new Key(b, a, ZeroSetup.of(link));
    }
  }
}
