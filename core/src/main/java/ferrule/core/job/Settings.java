package ferrule.core.job;

import ferrule.core.optics.FibreKind;
import ferrule.core.zero.PowerWindow;
import java.time.Duration;
import java.util.Map;

/**
 * Defaults with an origin that a job may replace.
 *
 * @param zeroValidFor how long a zero holds before it lapses
 * @param verifyEvery after how long a verified zero counts as ageing
 * @param powerWindows window of stored power by kind of fibre; kinds not named keep the usual one
 * @param uncertainty sizes of uncertainty contributions that replace the assumed ones, dB
 */
public record Settings(
    Duration zeroValidFor,
    Duration verifyEvery,
    Map<FibreKind, PowerWindow> powerWindows,
    Map<String, Double> uncertainty) {

  /**
   * A zero holds for one shift, twelve hours, at most (at least once a day or shift; common
   * practice, no source) and is ageing four hours after its verification (verify at every break;
   * common practice, no source).
   */
  public static final Settings USUAL =
      new Settings(Duration.ofHours(12), Duration.ofHours(4), Map.of(), Map.of());

  /** Copies the maps. */
  public Settings {
    powerWindows = Map.copyOf(powerWindows);
    uncertainty = Map.copyOf(uncertainty);
  }

  /** The window of stored power for a kind of fibre. */
  public PowerWindow powerWindow(FibreKind kind) {
    PowerWindow own = powerWindows.get(kind);
    return own == null ? PowerWindow.usual(kind) : own;
  }
}
