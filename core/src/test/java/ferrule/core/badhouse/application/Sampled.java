package ferrule.core.badhouse.application;

import ferrule.core.badhouse.face.Face;

/** Stands for what comes after trust in the row. Wrong on purpose: knows of end faces. */
public final class Sampled {

  /** Names one. */
  public static Class<?> all() {
    return Face.class;
  }
}
