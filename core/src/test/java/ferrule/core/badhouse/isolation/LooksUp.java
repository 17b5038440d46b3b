package ferrule.core.badhouse.isolation;

import ferrule.core.badhouse.trust.Doubting;

/** Wrong on purpose: knows what stands after it. */
public final class LooksUp {
  private LooksUp() {}

  /** Names it. */
  public static String all() {
    return new Doubting().toString();
  }
}
