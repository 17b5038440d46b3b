package ferrule.core.plant;

import java.util.List;

/**
 * One end of a link.
 *
 * @param place room, rack or panel; empty if not given
 * @param port port on it; empty if not given
 * @param connector what a test cord mates with
 */
public record LinkEnd(String place, String port, Connector connector) {

  /** "Store A / 1:07", or whatever of it is known. */
  public String where() {
    if (place.isEmpty()) {
      return port;
    }
    return port.isEmpty() ? place : place + " / " + port;
  }

  /** How a crew may name it: its port, or place and port; an end without a port has no name. */
  public List<String> names() {
    if (port.isEmpty()) {
      return List.of();
    }
    return place.isEmpty() ? List.of(port) : List.of(port, where(), place + "/" + port);
  }
}
