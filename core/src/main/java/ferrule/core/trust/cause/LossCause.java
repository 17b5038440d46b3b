package ferrule.core.trust.cause;

import ferrule.core.optics.FibreKind;

/**
 * A reason why one fibre may lose more than was expected, with how often it is met: so many of a
 * thousand fibres of either kind, before anything was read. No published count is known to us: the
 * frequencies are assumed, from the order in which the trade looks for causes.
 */
enum LossCause {
  /** Nothing is wrong: ordinary connections scatter, with a long upper tail. */
  ORDINARY("ordinary connections, at the high end of what is usual", 0, 0),
  /** A film at an end of the fibre: the same at every wavelength and in both directions. */
  FILM("a film of dirt at one end of the fibre", 6, 6),
  /** Dirt that one cord's end brought or took: one direction only. */
  CORD_DIRT("dirt at one mating, in one direction only", 6, 6),
  /** Cores out of line; on multimode fibre anything that makes a connection poor. */
  OFFSET("a connection or splice whose cores are out of line", 4, 5),
  /** Axes at an angle. Not told from an offset on multimode fibre. */
  TILT("a connection whose ends stand at an angle", 1.5, 0),
  /** A gap between the ends. */
  GAP("a gap: a plug not fully home, or a particle between the faces", 3, 3),
  /** A bend or a crush: the longer wavelength loses more. */
  BEND("a bend, crush or tight tie", 5, 2),
  /** Glass that the schedule does not know of. */
  LONGER("more fibre in the link than the schedule says", 1, 1),
  /** The label and the fibre do not belong together. */
  OTHER_FIBRE("another fibre was connected", 1.5, 1.5),
  /** Multimode: a larger core into a smaller one, one direction only. */
  CORES("fibres of different cores in the line", 0, 0.8),
  /** Single-mode: an angled end against a straight one; or an attenuator. */
  POLISH("an angled plug against a straight one, or an attenuator left in", 0.6, 0.2),
  /** The values of two wavelengths changed places. */
  EXCHANGED("the values of two wavelengths exchanged", 0.3, 0.3),
  /** A reading that none of the fibre's others bears out. */
  ONE_READING("one reading alone is off: a cord moved, or noted wrong", 0.8, 0.8),
  /** Whatever no pattern here describes. */
  UNLIKE("something that none of the known causes shows", 0.3, 0.3);

  private final String words;
  private final double singleMode;
  private final double multimode;

  LossCause(String words, double singleMode, double multimode) {
    this.words = words;
    this.singleMode = singleMode;
    this.multimode = multimode;
  }

  /** For a reader; accuses nobody. */
  String words() {
    return words;
  }

  /** How often it is met, 0 to 1, before anything is read. */
  double frequency(FibreKind kind) {
    if (this == ORDINARY) {
      double others = 0;
      for (LossCause cause : values()) {
        others += cause == ORDINARY ? 0 : cause.frequency(kind);
      }
      return 1 - others;
    }
    return (kind == FibreKind.SINGLE_MODE ? singleMode : multimode) / 1000;
  }
}
