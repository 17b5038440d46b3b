package ferrule.core.face;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import java.util.Optional;

/** Classes of end face that criteria tell apart. The ids are a contract: add, never rename. */
public enum FaceClass {
  /** Single-mode, straight, return loss 45 dB and better. */
  SM_PC("sm-pc", "single-mode PC, return loss 45 dB and better"),
  /** Single-mode, angled, return loss 60 dB and better. */
  SM_APC("sm-apc", "single-mode angled, return loss 60 dB and better"),
  /** Single-mode, straight, return loss 26 dB and better. */
  SM_PC26("sm-pc26", "single-mode PC, return loss 26 dB and better"),
  /** Multimode, straight. */
  MM("mm", "multimode PC");

  private final String id;
  private final String shown;

  FaceClass(String id, String shown) {
    this.id = id;
    this.shown = shown;
  }

  /** The id in tables, in criteria files and on the command line. */
  public String id() {
    return id;
  }

  /** For a reader. */
  public String shown() {
    return shown;
  }

  /** The class with this id, if there is one. */
  public static Optional<FaceClass> ofId(String id) {
    for (FaceClass one : values()) {
      if (one.id.equals(id)) {
        return Optional.of(one);
      }
    }
    return Optional.empty();
  }

  /**
   * The class that a connector's end face is graded by when none is named; for a straight
   * single-mode one the stricter of the two.
   */
  public static FaceClass of(FibreKind kind, Connector connector) {
    if (kind == FibreKind.MULTIMODE) {
      return MM;
    }
    return connector.polish().angled() ? SM_APC : SM_PC;
  }
}
