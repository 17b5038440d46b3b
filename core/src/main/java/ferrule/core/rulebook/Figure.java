package ferrule.core.rulebook;

/**
 * A number with its source.
 *
 * @param value in the unit that its place in the rulebook gives it: dB, or dB/km
 * @param provenance where it comes from
 */
public record Figure(double value, Provenance provenance) {}
