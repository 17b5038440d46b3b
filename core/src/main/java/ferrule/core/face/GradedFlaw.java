package ferrule.core.face;

import java.util.Optional;

/**
 * A flaw with the row of the criteria that speaks of it.
 *
 * @param number from 1, in the order found
 * @param flaw what was seen
 * @param zone the zone it counts in; empty outside the contact zone
 * @param limit the row that speaks of its zone, kind and size; empty outside the contact zone
 * @param counted whether the row limits the number of such flaws, and its zone is graded
 * @param close whether its size lies within its own uncertainty of a limit
 */
public record GradedFlaw(
    int number,
    Flaw flaw,
    Optional<Zone> zone,
    Optional<CountLimit> limit,
    boolean counted,
    boolean close) {

  /** "defect 3 of 6.2 µm (± 0.5 µm) at x 12.1, y -30.4 µm". */
  public String shown() {
    return flaw.kind().word()
        + " "
        + number
        + (flaw.kind() == FlawKind.SCRATCH ? ", " : " of ")
        + Microns.shown(flaw.sizeUm())
        + (flaw.kind() == FlawKind.SCRATCH ? " µm wide" : " µm")
        + " (± "
        + Microns.shown(Grading.COVERAGE_FACTOR * flaw.sizeUncertaintyUm())
        + " µm) at x "
        + Microns.shown(flaw.xUm())
        + ", y "
        + Microns.shown(flaw.yUm())
        + " µm";
  }
}
