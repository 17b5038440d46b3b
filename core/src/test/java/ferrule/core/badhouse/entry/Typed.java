package ferrule.core.badhouse.entry;

import ferrule.core.badhouse.face.Face;

/** Stands for what is typed by hand. Wrong on purpose: knows of end faces. */
public final class Typed {

  /** Names one. */
  public static Class<?> all() {
    return Face.class;
  }
}
