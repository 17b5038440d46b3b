package ferrule.core.badhouse.plan;

import ferrule.core.badhouse.face.Face;

/** Stands for the plan. Wrong on purpose: knows of end faces. */
public final class Planned {

  /** Names one. */
  public static Class<?> all() {
    return Face.class;
  }
}
