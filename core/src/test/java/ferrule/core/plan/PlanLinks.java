package ferrule.core.plan;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import java.util.List;

/** Links for plans. */
final class PlanLinks {

  private PlanLinks() {}

  static Link link(String id, String placeA, String placeB) {
    return link(id, FibreCategory.OS2, 2, placeA, "LC-UPC", placeB, "LC-UPC");
  }

  static Link link(
      String id,
      FibreCategory category,
      int fibres,
      String placeA,
      String connectorA,
      String placeB,
      String connectorB) {
    return new Link(
        id,
        category,
        fibres,
        100,
        new LinkEnd(placeA, id, Connector.parse(connectorA).orElseThrow()),
        new LinkEnd(placeB, id, Connector.parse(connectorB).orElseThrow()),
        0,
        0,
        List.of());
  }
}
