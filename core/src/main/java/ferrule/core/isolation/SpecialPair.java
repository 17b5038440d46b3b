package ferrule.core.isolation;

/**
 * A pair of ends that loses more or less than its two ends do with others.
 *
 * @param pair the two ends
 * @param extra how much more; negative if less. Its standard deviation is from the stated or
 *     assumed repeatability
 */
public record SpecialPair(Mating pair, Estimate extra) {}
