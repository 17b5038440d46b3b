package ferrule.core.trust;

/**
 * The cheapest next action against a doubt, and what its result tells.
 *
 * @param key names the deed, so that doubts that one deed settles share it: "verify:R2"
 * @param what what to do, one sentence
 * @param where where to do it; empty if it does not matter
 * @param minutes about how long it takes, {@link Handling}; walking and setting up not counted
 * @param confirms which result would confirm the likeliest cause, one short sentence without a full
 *     stop, in numbers where there are numbers; empty if nobody has said
 * @param refutes which result would refute it, likewise
 */
public record NextStep(
    String key, String what, String where, double minutes, String confirms, String refutes) {

  /** A step that does not say what its result tells. */
  public NextStep(String key, String what, String where, double minutes) {
    this(key, what, where, minutes, "", "");
  }

  /** The same step, saying which result would confirm and which refute the likeliest cause. */
  public NextStep withResults(String confirming, String refuting) {
    return new NextStep(key, what, where, minutes, confirming, refuting);
  }
}
