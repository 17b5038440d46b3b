package ferrule.app.demo;

import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The trouble of single fibres, by name. docs/demo.md explains all of it. */
final class Trouble {

  /**
   * Loss on top of what the fibre is built of.
   *
   * @param shorterDb at the shorter wavelength
   * @param longerDb at the longer wavelength
   * @param only the one direction it is in; both if empty
   * @param cleaned whether the crew saw it, cleaned and read the fibre again
   */
  record Extra(double shorterDb, double longerDb, Optional<Direction> only, boolean cleaned) {
    static final Extra NONE = new Extra(0, 0, Optional.empty(), false);

    private static Extra of(double shorterDb, double longerDb) {
      return new Extra(shorterDb, longerDb, Optional.empty(), false);
    }
  }

  private static final Map<FibreId, Extra> EXTRAS =
      Map.of(
          // Bends: next to nothing at 1310 nm.
          fibre("S001/4"), Extra.of(0.02, 0.50),
          fibre("S018/9"), Extra.of(0.04, 0.90),
          fibre("S002/7"), Extra.of(0.20, 2.60),
          // Dirty ports: the shorter wavelength suffers more.
          fibre("S003/5"), Extra.of(2.75, 2.35),
          fibre("S057/2"), Extra.of(2.60, 2.20),
          // Dirt on the cord in one direction.
          fibre("S061/1"), new Extra(0.66, 0.55, Optional.of(Direction.B_TO_A), false),
          fibre("M048/1"), new Extra(1.60, 1.50, Optional.empty(), true));

  /** The first and last link tested under the zero that was set with dirty launch ends. */
  private static final String DIRTY_FIRST = "S008";

  private static final String DIRTY_LAST = "S016";

  /** Fibres under that zero so well joined that it takes them below what their glass must lose. */
  static final Set<FibreId> WELL_JOINED = Set.of(fibre("S009/1"), fibre("S012/2"), fibre("S015/1"));

  /** Links whose far ends were exchanged when they were put on the panel. */
  private static final Map<String, String> CROSSED = Map.of("S025", "S029", "S029", "S025");

  /** A short spare that was read in place of a fibre of the longest link. */
  static final FibreId READ_SPARE = fibre("S019/3");

  /** Fibres of which nobody read B-A. */
  private static final Set<FibreId> ONE_WAY =
      Set.of(
          fibre("S017/8"), fibre("S017/9"), fibre("S017/10"), fibre("S017/11"), fibre("S017/12"));

  /** The name was not moved on: this fibre was filed under the one before. */
  private static final Map<FibreId, FibreId> NAME_KEPT = Map.of(fibre("M009/1"), fibre("M008/2"));

  /** A letter for a digit in the name of a link. */
  private static final Map<String, String> MISTYPED = Map.of("M030", "MO30");

  private Trouble() {}

  static FibreId fibre(String name) {
    int slash = name.indexOf('/');
    return new FibreId(name.substring(0, slash), Integer.parseInt(name.substring(slash + 1)));
  }

  static Extra extra(FibreId fibre) {
    return EXTRAS.getOrDefault(fibre, Extra.NONE);
  }

  /** The fibre that hangs on the port of another. */
  static FibreId behindPort(FibreId fibre) {
    return new FibreId(CROSSED.getOrDefault(fibre.link(), fibre.link()), fibre.fibre());
  }

  /** The name under which the readings of a fibre were filed. */
  static FibreId writtenName(FibreId fibre) {
    FibreId kept = NAME_KEPT.getOrDefault(fibre, fibre);
    return new FibreId(MISTYPED.getOrDefault(kept.link(), kept.link()), kept.fibre());
  }

  /** Whether the fibre was read under the zero that was set with dirty launch ends. */
  static boolean isUnderTheDirtyZero(FibreId fibre) {
    return fibre.link().compareTo(DIRTY_FIRST) >= 0 && fibre.link().compareTo(DIRTY_LAST) <= 0;
  }

  static boolean isOneWay(FibreId fibre) {
    return ONE_WAY.contains(fibre);
  }
}
