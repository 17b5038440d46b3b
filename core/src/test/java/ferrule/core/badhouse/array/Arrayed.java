package ferrule.core.badhouse.array;

import ferrule.core.badhouse.trust.Doubting;

/** Wrong on purpose: what a link is made of must not hang on what is doubted. */
public final class Arrayed {
  private Arrayed() {}

  /** Names what stands after it. */
  public static Object doubting() {
    return new Doubting();
  }
}
