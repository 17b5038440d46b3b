package ferrule.app.demo;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Connector.Polish;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Links of one make between two places, tested one after the other. The schedule is the same for
 * every seed; only what nobody can read off a drawing varies.
 *
 * @param kind of fibre: OS2 or OM4
 * @param first number of the first link
 * @param count of links
 * @param fibres of each
 * @param from place of end A
 * @param to place of end B
 * @param shortestM shortest possible length, metres
 * @param longestM longest possible length, metres
 * @param connections inside each link
 * @param splices in each link
 * @param angled SC-APC at both ends
 */
record Block(
    FibreKind kind,
    int first,
    int count,
    int fibres,
    String from,
    String to,
    int shortestM,
    int longestM,
    int connections,
    int splices,
    boolean angled) {

  /** Spreads lengths over the range so that neighbours differ: the golden section. */
  private static final double GOLDEN = 0.618034;

  private static final Connector LC_UPC = new Connector("LC", Polish.UPC);
  private static final Connector LC_PC = new Connector("LC", Polish.PC);
  private static final Connector SC_APC = new Connector("SC", Polish.APC);

  static Block singleMode(
      int first, int count, int fibres, String from, String to, int shortestM, int longestM) {
    return new Block(
        FibreKind.SINGLE_MODE, first, count, fibres, from, to, shortestM, longestM, 0, 0, false);
  }

  static Block multimode(
      int first, int count, int fibres, String from, String to, int shortestM, int longestM) {
    return new Block(
        FibreKind.MULTIMODE, first, count, fibres, from, to, shortestM, longestM, 0, 0, false);
  }

  Block with(int newConnections, int newSplices) {
    return new Block(
        kind,
        first,
        count,
        fibres,
        from,
        to,
        shortestM,
        longestM,
        newConnections,
        newSplices,
        angled);
  }

  Block withAngledEnds() {
    return new Block(
        kind, first, count, fibres, from, to, shortestM, longestM, connections, splices, true);
  }

  List<Link> links() {
    List<Link> links = new ArrayList<>(count);
    for (int i = 0; i < count; i++) {
      links.add(link(first + i));
    }
    return links;
  }

  private Link link(int number) {
    double turns = number * GOLDEN;
    double share = turns - Math.floor(turns);
    Connector end = angled ? SC_APC : kind == FibreKind.SINGLE_MODE ? LC_UPC : LC_PC;
    String id =
        String.format(Locale.ROOT, "%s%03d", kind == FibreKind.SINGLE_MODE ? "S" : "M", number);
    return new Link(
        id,
        kind == FibreKind.SINGLE_MODE ? FibreCategory.OS2 : FibreCategory.OM4,
        fibres,
        Math.round(shortestM + (longestM - shortestM) * share),
        new LinkEnd(from, port(from, id), end),
        new LinkEnd(to, port(to, id), end),
        connections,
        splices,
        List.of());
  }

  private static String port(String place, String link) {
    return place.charAt(0) + "-" + link.substring(0, 1) + link.substring(2);
  }
}
