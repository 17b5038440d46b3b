package ferrule.core.trust.joint;

import ferrule.core.plant.Direction;
import ferrule.core.trust.joint.Frame.Level;
import java.util.Optional;

/**
 * Which levels of a zero share a trouble: all of them, those of one direction (one cord, one
 * source), those of one wavelength, or one alone.
 *
 * @param direction only this direction, if given
 * @param nm only this wavelength, nm; 0 for all
 */
record Part(Optional<Direction> direction, int nm) {

  static final Part ALL = new Part(Optional.empty(), 0);

  boolean holds(boolean forward, int wavelengthNm) {
    return (direction.isEmpty() || (direction.get() == Direction.A_TO_B) == forward)
        && (nm == 0 || nm == wavelengthNm);
  }

  boolean holds(Level level) {
    return holds(level.forward(), level.nm());
  }

  /** Whether it is the whole zero. */
  boolean isAll() {
    return direction.isEmpty() && nm == 0;
  }

  /** "", " A-B", " at 1310 nm", " A-B at 1310 nm". */
  String shown() {
    return direction.map(d -> " " + d.word()).orElse("") + (nm == 0 ? "" : " at " + nm + " nm");
  }
}
