package ferrule.core.zero;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;

/**
 * The range in which a healthy source and launch cord put the stored power.
 *
 * @param lowest dBm
 * @param highest dBm
 * @param origin where the window comes from, for a reader
 */
public record PowerWindow(LevelDbm lowest, LevelDbm highest, String origin) {

  /** Handheld single-mode laser sources: -3 to -9 dBm. Common practice, no source. */
  public static final PowerWindow SINGLE_MODE =
      new PowerWindow(
          new LevelDbm(-9),
          new LevelDbm(-3),
          "handheld single-mode laser source into a single-mode cord; common practice, no source");

  /**
   * Handheld multimode LED sources: -18 to -24 dBm, and up to 3 dB less through a launch
   * conditioner. Common practice, no source.
   */
  public static final PowerWindow MULTIMODE =
      new PowerWindow(
          new LevelDbm(-27),
          new LevelDbm(-18),
          "handheld multimode LED source, -18 to -24 dBm, less up to 3 dB for a launch conditioner;"
              + " common practice, no source");

  /**
   * @throws IllegalArgumentException if the window is empty
   */
  public PowerWindow {
    if (lowest.compareTo(highest) > 0) {
      throw new IllegalArgumentException("An empty power window");
    }
  }

  /** The window used when a job gives none. */
  public static PowerWindow usual(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? SINGLE_MODE : MULTIMODE;
  }

  /** Whether the level lies inside, the bounds included. */
  public boolean holds(LevelDbm level) {
    return level.compareTo(lowest) >= 0 && level.compareTo(highest) <= 0;
  }

  /** "-9.00 to -3.00 dBm". */
  public String shown() {
    return Decibels.shown(lowest.value()) + " to " + Decibels.shown(highest.value()) + " dBm";
  }
}
