package ferrule.core.optics;

import java.util.Optional;

/**
 * Cabled fibre categories of ISO/IEC 11801-1 and its forerunners.
 *
 * <p>Core diameters: 62.5 µm for OM1, 50 µm for OM2 to OM5 (IEC 60793-2-10 as printed in supplier
 * data sheets). For single-mode fibre the core is nominal, about 9 µm (from memory: confirm against
 * the standard); its mode field, not its core, decides the loss.
 */
public enum FibreCategory {
  /** 62.5 µm multimode. */
  OM1("OM1", FibreKind.MULTIMODE, 62.5),
  /** 50 µm multimode. */
  OM2("OM2", FibreKind.MULTIMODE, 50),
  /** 50 µm multimode, laser-optimised. */
  OM3("OM3", FibreKind.MULTIMODE, 50),
  /** 50 µm multimode, laser-optimised. */
  OM4("OM4", FibreKind.MULTIMODE, 50),
  /** 50 µm multimode, wideband. */
  OM5("OM5", FibreKind.MULTIMODE, 50),
  /** Single-mode, 2002 category. */
  OS1("OS1", FibreKind.SINGLE_MODE, 9),
  /** Single-mode, indoor. */
  OS1A("OS1a", FibreKind.SINGLE_MODE, 9),
  /** Single-mode, outdoor and long runs. */
  OS2("OS2", FibreKind.SINGLE_MODE, 9);

  private final String label;
  private final FibreKind kind;
  private final double coreUm;

  FibreCategory(String label, FibreKind kind, double coreUm) {
    this.label = label;
    this.kind = kind;
    this.coreUm = coreUm;
  }

  /** The category as standards write it: "OS1a". */
  public String label() {
    return label;
  }

  /** Multimode or single-mode. */
  public FibreKind kind() {
    return kind;
  }

  /** Nominal core diameter, µm. */
  public double coreUm() {
    return coreUm;
  }

  /**
   * Whether a cord of this category may stand in front of a link of the other: same kind, same
   * nominal core. Bandwidth grade (OM2 to OM5) does not change the loss and cannot be told from it.
   */
  public boolean sameCoreAs(FibreCategory other) {
    return kind == other.kind && coreUm == other.coreUm;
  }

  /** The category with this label, upper or lower case; empty if there is none. */
  public static Optional<FibreCategory> ofLabel(String label) {
    for (FibreCategory category : values()) {
      if (category.label.equalsIgnoreCase(label)) {
        return Optional.of(category);
      }
    }
    return Optional.empty();
  }
}
