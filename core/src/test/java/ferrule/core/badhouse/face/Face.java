package ferrule.core.badhouse.face;

import ferrule.core.badhouse.trust.Doubting;

/** Stands beside the row of packages. Wrong on purpose: knows the last of them. */
public final class Face {
  private final Doubting doubting = new Doubting();

  @Override
  public String toString() {
    return doubting.toString();
  }
}
