package ferrule.trial;

import ferrule.core.optics.FibreKind;

/**
 * Why one simulated fibre loses more than its like, how often of a thousand fibres it is met
 * (assumed, the frequencies that the judge's methods page states), and how the judge's words for it
 * begin.
 */
enum Ailment {
  NOTHING("ordinary connections", 0, 0),
  FILM("a film of dirt", 6, 6),
  CORD_DIRT("dirt at one mating", 6, 6),
  OFFSET("a connection or splice whose cores", 4, 5),
  TILT("a connection whose ends stand", 1.5, 0),
  GAP("a gap", 3, 3),
  BEND("a bend", 5, 2),
  LONGER("more fibre in the link", 1, 1),
  OTHER_FIBRE("another fibre", 1.5, 1.5),
  CORES("fibres of different cores", 0, 0.8),
  POLISH("an angled plug", 0.6, 0.2),
  EXCHANGED("the values of two wavelengths", 0.3, 0.3),
  ONE_READING("one reading alone", 0.8, 0.8),
  ODD("something that none", 0.3, 0.3);

  private final String words;
  private final double singleMode;
  private final double multimode;

  Ailment(String words, double singleMode, double multimode) {
    this.words = words;
    this.singleMode = singleMode;
    this.multimode = multimode;
  }

  /** Of a thousand fibres. */
  double perThousand(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? singleMode : multimode;
  }

  /** Whether the judge's words mean this. */
  boolean isMeantBy(String said) {
    return said.startsWith(words);
  }

  /** Whether the judge names this among the causes between which it cannot tell. */
  boolean isAmong(String said) {
    return said.contains(words);
  }

  /** Draws what is wrong with a fibre: mostly nothing. */
  static Ailment draw(FibreKind kind, double times, Dice dice) {
    double at = dice.uniform(0, 1000);
    for (Ailment ailment : values()) {
      at -= times * ailment.perThousand(kind);
      if (at < 0) {
        return ailment;
      }
    }
    return NOTHING;
  }
}
