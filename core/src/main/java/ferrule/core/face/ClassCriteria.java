package ferrule.core.face;

import java.util.List;
import java.util.Optional;

/**
 * The criteria of one class in one edition.
 *
 * @param faceClass which class
 * @param zones from the inside out, each beginning where the one before ends
 * @param limits every row; for each zone and kind their sizes cover all sizes once
 */
public record ClassCriteria(FaceClass faceClass, List<ZoneBand> zones, List<CountLimit> limits) {

  /** Copies the lists. */
  public ClassCriteria {
    zones = List.copyOf(zones);
    limits = List.copyOf(limits);
  }

  /**
   * The zone that a flaw counts in: the innermost it touches, for a flaw that touches a boundary
   * counts wholly in the inner zone. Empty if it lies outside all of them.
   */
  public Optional<Zone> zoneOf(Flaw flaw) {
    for (ZoneBand band : zones) {
      if (flaw.nearestUm() <= band.outer().value() / 2) {
        return Optional.of(band.zone());
      }
    }
    return Optional.empty();
  }

  /** The rows for a kind of flaw in a zone, smallest sizes first. */
  public List<CountLimit> limits(Zone zone, FlawKind kind) {
    return limits.stream().filter(l -> l.zone() == zone && l.kind() == kind).toList();
  }

  /** The row that speaks of a size; empty only for what is no size. */
  public Optional<CountLimit> limit(Zone zone, FlawKind kind, double sizeUm) {
    return limits(zone, kind).stream().filter(l -> l.sizes().contains(sizeUm)).findFirst();
  }
}
