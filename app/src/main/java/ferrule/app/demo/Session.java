package ferrule.app.demo;

import ferrule.core.optics.FibreKind;
import java.time.OffsetDateTime;
import java.util.List;

/**
 * One zero of one crew, and what was tested under it.
 *
 * @param zero id of the zero
 * @param crew who
 * @param setAt when the zero was begun
 * @param near the instruments at end A
 * @param far the instruments at end B
 * @param cords the pair of cords
 * @param slip what went wrong with the zero
 * @param stints what was tested, in order
 */
record Session(
    String zero,
    Crew crew,
    OffsetDateTime setAt,
    Kit.Set near,
    Kit.Set far,
    Kit.Pair cords,
    Slip slip,
    List<Stint> stints) {

  /** What can be wrong with a zero. */
  enum Slip {
    /** Nothing. */
    NONE,
    /** The launch ends were dirty when it was set, and cleaned before the verification. */
    DIRTY,
    /** Nobody wrote a verification down. */
    UNVERIFIED,
    /** The receive cord stood in the line when it was set. */
    TWO_CORD,
    /** The source at end A gave modulated light: half the power on average. */
    MODULATED
  }

  /**
   * Links tested in one go.
   *
   * @param start when
   * @param block which
   */
  record Stint(OffsetDateTime start, Block block) {}

  FibreKind kind() {
    return cords.category().kind();
  }
}
