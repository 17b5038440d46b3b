package ferrule.core.trust;

/**
 * The cheapest next action against a doubt.
 *
 * @param key names the deed, so that doubts that one deed settles share it: "verify:R2"
 * @param what what to do, one sentence
 * @param where where to do it; empty if it does not matter
 * @param minutes about how long it takes, {@link Handling}
 */
public record NextStep(String key, String what, String where, double minutes) {}
