package ferrule.core.isolation;

/**
 * A value with its spread.
 *
 * @param db dB
 * @param sdDb standard deviation, dB, above 0
 */
public record Estimate(double db, double sdDb) {}
