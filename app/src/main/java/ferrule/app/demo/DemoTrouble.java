package ferrule.app.demo;

import ferrule.core.plant.Link;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** The trouble of single fibres, by name. All of it is explained in docs/demo.md. */
final class DemoTrouble {

  /**
   * What is added to a fibre.
   *
   * @param trouble its name; empty for an ordinary fibre
   * @param shorterDb more loss at the shorter wavelength
   * @param longerDb more loss at the longer wavelength
   * @param backDb more loss from B to A, at both
   * @param oneWay whether B to A was never read
   * @param retest whether it was read dirty first, then cleaned and read again
   * @param doubleLengthM length of another fibre that was read under this name first; 0 if none
   */
  record Extra(
      Optional<String> trouble,
      double shorterDb,
      double longerDb,
      double backDb,
      boolean oneWay,
      boolean retest,
      double doubleLengthM) {

    static final Extra NONE = new Extra(Optional.empty(), 0, 0, 0, false, false, 0);

    static Extra loss(String trouble, double shorter, double longer) {
      return new Extra(Optional.of(trouble), shorter, longer, 0, false, false, 0);
    }
  }

  private static final Map<String, Extra> EXTRAS =
      Map.ofEntries(
          Map.entry("S004/1", Extra.loss("bend", 0.01, 0.42)),
          Map.entry("S019/2", Extra.loss("bend", 0.01, 0.48)),
          Map.entry("S033/1", Extra.loss("bend-over-limit", 0.03, 2.60)),
          Map.entry("S007/2", Extra.loss("dirty-port", 2.40, 1.95)),
          Map.entry("M030/1", Extra.loss("dirty-port", 1.90, 1.75)),
          Map.entry(
              "M010/2", new Extra(Optional.of("direction-gap"), 0, 0, 0.62, false, false, 0)),
          Map.entry("S021/1", new Extra(Optional.of("one-way"), 0, 0, 0, true, false, 0)),
          Map.entry("S021/2", new Extra(Optional.of("one-way"), 0, 0, 0, true, false, 0)),
          Map.entry("M052/1", new Extra(Optional.of("one-way"), 0, 0, 0, true, false, 0)),
          Map.entry("M020/1", new Extra(Optional.of("retest"), 0, 0, 0, false, true, 0)),
          Map.entry("M015/2", new Extra(Optional.of("double"), 0, 0, 0, false, false, 163)));

  /** Two links whose far ends were exchanged: each was read with the other's length. */
  static final String CROSSED_ONE = "M044";

  static final String CROSSED_OTHER = "M047";

  /** A short fibre was read in place of this trunk fibre. */
  static final String WRONG_FIBRE = "S028/3";

  static final double WRONG_FIBRE_M = 95;

  /** This link's readings were filed under a mistyped name. */
  static final String MISTYPED = "M058";

  static final String TYPED = "MO58";

  private DemoTrouble() {}

  static Extra extra(String fibre) {
    return EXTRAS.getOrDefault(fibre, Extra.NONE);
  }

  /** The length of the fibre that was really read under a name, if it is not the scheduled one. */
  static OptionalDouble lengthOf(String fibre, List<Link> links) {
    if (fibre.equals(WRONG_FIBRE)) {
      return OptionalDouble.of(WRONG_FIBRE_M);
    }
    String link = fibre.substring(0, fibre.indexOf('/'));
    if (link.equals(CROSSED_ONE)) {
      return OptionalDouble.of(length(CROSSED_OTHER, links));
    }
    return link.equals(CROSSED_OTHER)
        ? OptionalDouble.of(length(CROSSED_ONE, links))
        : OptionalDouble.empty();
  }

  private static double length(String link, List<Link> links) {
    return links.stream().filter(l -> l.id().equals(link)).findFirst().orElseThrow().lengthM();
  }

  /** The name under which a link's readings were filed. */
  static String writtenName(String link) {
    return link.equals(MISTYPED) ? TYPED : link;
  }
}
