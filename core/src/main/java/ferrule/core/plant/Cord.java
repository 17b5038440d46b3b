package ferrule.core.plant;

import ferrule.core.optics.FibreCategory;
import ferrule.core.rulebook.CordGrade;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A test cord.
 *
 * @param id its name
 * @param category its fibre
 * @param lengthM metres, if on record
 * @param end1 first end, as far as on record
 * @param end2 second end, as far as on record
 * @param matings matings of its link-side end so far, if counted
 * @param inServiceSince first day of use, if on record
 */
public record Cord(
    String id,
    FibreCategory category,
    Optional<Double> lengthM,
    CordEnd end1,
    CordEnd end2,
    OptionalInt matings,
    Optional<LocalDate> inServiceSince) {

  /**
   * One end of a cord.
   *
   * @param connector its connector, if on record
   * @param grade how well its plug is made, if on record
   */
  public record CordEnd(Optional<Connector> connector, Optional<CordGrade> grade) {}

  /**
   * The end that stands at the link: the one whose connector mates with the link's. If both do, the
   * reference-grade one, since that is the one a careful crew turns to the link and since it gives
   * the tighter limit. Empty if neither end is known to mate.
   */
  public Optional<CordEnd> endFor(Connector linkConnector) {
    return List.of(end1, end2).stream()
        .filter(end -> end.connector().filter(c -> c.mates(linkConnector)).isPresent())
        .min(
            java.util.Comparator.comparingInt(
                end -> end.grade().filter(g -> g == CordGrade.REFERENCE).isPresent() ? 0 : 1));
  }

  /** Whether both ends' connectors are on record. */
  public boolean connectorsKnown() {
    return end1.connector().isPresent() && end2.connector().isPresent();
  }
}
