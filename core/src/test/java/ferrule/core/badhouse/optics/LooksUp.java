package ferrule.core.badhouse.optics;

import ferrule.core.badhouse.face.Face;
import ferrule.core.badhouse.store.Table;
import ferrule.core.badhouse.trust.Doubting;

/** Wrong on purpose: optics knows trust, face and a module above core. */
public final class LooksUp {
  private LooksUp() {}

  /** Names all three. */
  public static String all() {
    return new Doubting().toString() + new Face() + new Table();
  }
}
