package ferrule.core.isolation;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import java.util.Optional;
import java.util.Set;

/**
 * What one end of a test cord may lose: half of what two reference-grade ends may lose when mated,
 * for two ends alike at this limit are a pair at its own.
 *
 * @param kind of the cords
 * @param origin how the kind is known
 * @param pair most loss of two reference-grade ends mated, dB
 */
public record EndLimit(FibreKind kind, Origin origin, Figure pair) {

  /** How the kind of fibre is known. */
  public enum Origin {
    /** Said by whoever asks. */
    STATED("stated"),
    /** By the wavelength: 850, 953 and 1300 nm are multimode. */
    WAVELENGTH("wavelength"),
    /** Not known: taken as single-mode. */
    ASSUMED("assumed");

    private final String word;

    Origin(String word) {
      this.word = word;
    }

    /** One word for a reader and for scripts. */
    public String word() {
      return word;
    }
  }

  /** Wavelengths at which multimode cabling is tested; the others are single-mode. */
  private static final Set<Integer> MULTIMODE_NM = Set.of(850, 953, 1300);

  /**
   * The limit for cords read at a wavelength.
   *
   * @param rulebook holds the limit of a pair
   * @param stated kind of the cords, if known
   * @return empty if the rulebook has no limit for a pair
   */
  static Optional<EndLimit> of(
      Optional<Wavelength> wavelength, Optional<FibreKind> stated, Rulebook rulebook) {
    Origin origin =
        stated.isPresent()
            ? Origin.STATED
            : wavelength.isPresent() ? Origin.WAVELENGTH : Origin.ASSUMED;
    FibreKind kind =
        stated.orElse(
            wavelength.filter(w -> MULTIMODE_NM.contains(w.nm())).isPresent()
                ? FibreKind.MULTIMODE
                : FibreKind.SINGLE_MODE);
    return rulebook.referencePairLimit(kind).map(pair -> new EndLimit(kind, origin, pair));
  }

  /** Most loss of one end, dB. */
  public double db() {
    return pair.value() / 2;
  }
}
