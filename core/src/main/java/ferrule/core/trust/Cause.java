package ferrule.core.trust;

/**
 * A possible cause of a doubt.
 *
 * @param cause in words
 * @param weight share among the causes named, 0 to 1. The order follows trade diagnostics; the
 *     weights are judgement until a likelihood replaces them
 */
public record Cause(String cause, double weight) {}
