package ferrule.core.application;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Figure;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Limits of one application on some categories of fibre, each figure with its source.
 *
 * @param family "Ethernet", "Fibre Channel" or "access"
 * @param name as its standard writes it: "10GBASE-SR"
 * @param categories of fibre for which these limits hold
 * @param wavelengths at which it sends, shortest first
 * @param fibres how many it uses
 * @param mostLoss most loss of the channel, dB; empty if not established
 * @param leastLoss least loss below which a receiver is overloaded, dB; empty if none is stated
 * @param mostLength longest channel, metres; empty if not established
 * @param leastLength shortest channel, metres; empty if none is stated
 * @param note what a reader must know; may be empty
 */
public record Application(
    String family,
    String name,
    Set<FibreCategory> categories,
    List<Wavelength> wavelengths,
    int fibres,
    Optional<Figure> mostLoss,
    Optional<Figure> leastLoss,
    Optional<Figure> mostLength,
    Optional<Figure> leastLength,
    String note) {

  /**
   * How far a window may lie from an application's wavelength and stand for it, nm: 1550 for 1490
   * and 1577, 1310 for 1270 and 1331, 850 for 910 (common practice, no source).
   */
  public static final int NEAR_NM = 60;

  /** Copies its collections. */
  public Application {
    categories = Set.copyOf(categories);
    wavelengths = List.copyOf(wavelengths);
  }

  /**
   * Whether a user means this application by a name: its whole name, or the name without the
   * variant in brackets or the network before the class; case and blanks do not count. "8GFC" means
   * "8GFC (800-M5E-SN-I)"; "B+" and "class B+" mean "GPON class B+".
   */
  public boolean isCalled(String wanted) {
    String asked = plain(wanted);
    if (asked.isEmpty()) {
      return false;
    }
    String whole = plain(name);
    int bracket = whole.indexOf('(');
    return whole.equals(asked)
        || (bracket > 0 && whole.substring(0, bracket).equals(asked))
        || (family.equals("access")
            && (("gpon" + asked).equals(whole)
                || ("gponclass" + asked).equals(whole)
                || ("xgs-pon" + asked).equals(whole)));
  }

  private static String plain(String text) {
    return text.replaceAll("\\s", "").toLowerCase(Locale.ROOT);
  }
}
