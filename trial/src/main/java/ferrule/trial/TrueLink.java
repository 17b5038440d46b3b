package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Link;
import java.util.List;

/**
 * A link as it was built, beside its line in the schedule.
 *
 * @param schedule what the papers say
 * @param fibres what is there, fibre 1 first
 */
record TrueLink(Link schedule, List<TrueFibre> fibres) {

  /**
   * One fibre.
   *
   * @param a its end at A
   * @param b its end at B
   * @param throughDb everything between the two end connections, dB, at the shorter and the longer
   *     wavelength
   * @param lengthM of glass, metres
   */
  record TrueFibre(Tip a, Tip b, double[] throughDb, double lengthM) {}

  FibreKind kind() {
    return schedule.category().kind();
  }

  String id() {
    return schedule.id();
  }
}
