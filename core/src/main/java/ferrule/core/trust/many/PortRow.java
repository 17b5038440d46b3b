package ferrule.core.trust.many;

import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.plant.PortOrder;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The links that end at a place, in the order of their ports: natural order if every one has a port
 * of its own, else the order of the schedule.
 *
 * @param place where
 * @param links numbers of the links
 * @param ports their ports, for a reader
 * @param panelStart for each port the first port of its panel
 * @param panelEnd for each port one past the last of its panel
 */
record PortRow(String place, int[] links, String[] ports, int[] panelStart, int[] panelEnd) {

  private record Socket(int link, String port) {}

  int size() {
    return links.length;
  }

  /** Whether a panel ends before a port, or at the end of the row. */
  boolean endsBefore(int at) {
    return at == size() || panelStart[at] == at;
  }

  /**
   * The port that a moved one stands for when its panel is read round: past the last comes the
   * first.
   */
  int round(int at, int lag) {
    int panel = panelEnd[at] - panelStart[at];
    return panelStart[at] + Math.floorMod(at - panelStart[at] + lag, panel);
  }

  /** Whether a port that many places on is beyond the panel. */
  boolean overEnd(int at, int lag) {
    return at + lag < panelStart[at] || at + lag >= panelEnd[at];
  }

  /**
   * All rows of a schedule, places in the order in which it names them. Unnamed places have none.
   */
  static List<PortRow> of(List<Link> links) {
    // A place at both ends of a link shows its ends A and its ends B in rows of their own.
    Set<String> looped = new HashSet<>();
    for (Link link : links) {
      if (link.a().place().equals(link.b().place())) {
        looped.add(link.a().place());
      }
    }
    Map<String, List<Socket>> byPlace = new LinkedHashMap<>();
    Map<String, List<Socket>> loopedB = new LinkedHashMap<>();
    for (int i = 0; i < links.size(); i++) {
      LinkEnd a = links.get(i).a();
      LinkEnd b = links.get(i).b();
      byPlace.computeIfAbsent(a.place(), k -> new ArrayList<>()).add(new Socket(i, a.port()));
      (looped.contains(b.place()) ? loopedB : byPlace)
          .computeIfAbsent(b.place(), k -> new ArrayList<>())
          .add(new Socket(i, b.port()));
    }
    List<PortRow> rows = new ArrayList<>();
    byPlace.forEach((place, sockets) -> add(rows, place, sockets));
    loopedB.forEach((place, sockets) -> add(rows, place, sockets));
    return rows;
  }

  private static void add(List<PortRow> rows, String place, List<Socket> sockets) {
    if (place.isEmpty()) {
      return;
    }
    List<Socket> sorted = new ArrayList<>(sockets);
    sorted.sort(Comparator.comparing(Socket::port, PortOrder.NATURAL));
    boolean numbered = !sorted.get(0).port().isEmpty();
    for (int i = 1; i < sorted.size() && numbered; i++) {
      numbered = !sorted.get(i).port().equals(sorted.get(i - 1).port());
    }
    List<Socket> order = numbered ? sorted : sockets;
    int size = order.size();
    int[] links = new int[size];
    String[] ports = new String[size];
    int[] starts = new int[size];
    int[] ends = new int[size];
    for (int i = 0; i < size; i++) {
      links[i] = order.get(i).link();
      ports[i] = order.get(i).port();
      boolean samePanel = i > 0 && (!numbered || PortOrder.samePanel(ports[i], ports[i - 1]));
      starts[i] = samePanel ? starts[i - 1] : i;
    }
    for (int i = size - 1; i >= 0; i--) {
      ends[i] = i + 1 < size && starts[i + 1] == starts[i] ? ends[i + 1] : i + 1;
    }
    rows.add(new PortRow(place, links, ports, starts, ends));
  }
}
