package ferrule.core.array;

/**
 * A part or joint that would explain a measured map by itself.
 *
 * @param stage which, counted through parts and joints from end A
 * @param named what it is called
 * @param fault what would be wrong with it, a clause: "is of type B (reversed), not type A
 *     (straight)"
 * @param sort how it would be wrong
 * @param as the type it would be of; LISTED unless it is of another type
 */
record Suspect(int stage, String named, String fault, Sort sort, MapType as) {

  /** How something is wrong, the plainest first. */
  enum Sort {
    /** A part of another type, or keys turned: one look tells. */
    OTHER_TYPE,
    /** Two positions exchanged. */
    TWO_EXCHANGED,
    /** Several positions lead elsewhere. */
    MIXED
  }

  /** "trunk T1 is of type B (reversed), not type A (straight)". */
  String shown() {
    return named + " " + fault;
  }
}
