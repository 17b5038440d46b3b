package ferrule.core.badhouse.rulebook;

/** Stands for a class that plant may know. */
public enum CordGrade {
  /** The only one. */
  ONE
}
