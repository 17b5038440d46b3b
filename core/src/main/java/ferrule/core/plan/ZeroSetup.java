package ferrule.core.plan;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;

/**
 * What a zero's cords must fit: the glass, and the connectors at a link's two ends. Links alike in
 * this can be read under one zero; a link that is the same the other way round is alike too.
 *
 * @param glass the first of the categories with that core: the crew's cords need not be better
 * @param first one end's connector
 * @param second the other's
 */
public record ZeroSetup(FibreCategory glass, Connector first, Connector second) {

  /** What a link needs. */
  public static ZeroSetup of(Link link) {
    Connector a = connector(link.a());
    Connector b = connector(link.b());
    boolean turned = a.toString().compareTo(b.toString()) > 0;
    return new ZeroSetup(core(link.category()), turned ? b : a, turned ? a : b);
  }

  private static Connector connector(LinkEnd end) {
    // Two straight polishes mate with the same cords: they need no zero of their own.
    return end.connector().polish().angled()
        ? end.connector()
        : new Connector(end.connector().family(), Connector.Polish.UPC);
  }

  private static FibreCategory core(FibreCategory category) {
    for (FibreCategory one : FibreCategory.values()) {
      if (one.sameCoreAs(category)) {
        return one;
      }
    }
    return category;
  }

  /** Whether a launch cord's plug can be mated with a receive cord's. */
  public boolean endsMate() {
    return first.mates(second);
  }

  /** Whether an end is a row of fibres in one ferrule. */
  public boolean holdsArray() {
    return first.isArray() || second.isArray();
  }

  /** "single-mode, LC straight to SC angled". */
  public String shown() {
    return glassShown() + ", " + shown(first) + " to " + shown(second);
  }

  /** "single-mode" or "multimode 50 µm". */
  public String glassShown() {
    return switch (glass.kind()) {
      case SINGLE_MODE -> glass.kind().word();
      case MULTIMODE -> glass.kind().word() + " " + core(glass.coreUm()) + " µm";
    };
  }

  private static String core(double um) {
    return um == Math.rint(um) ? Long.toString((long) um) : Double.toString(um);
  }

  static String shown(Connector connector) {
    return connector.family() + (connector.polish().angled() ? " angled" : " straight");
  }
}
