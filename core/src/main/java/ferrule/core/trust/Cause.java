package ferrule.core.trust;

/**
 * A possible cause of a doubt.
 *
 * @param cause in words
 * @param weight share among the causes named, 0 to 1: for the loss of a single fibre the
 *     probability that it is the cause (calibrated by simulation); for other doubts judgement, in
 *     the order of trade diagnostics
 */
public record Cause(String cause, double weight) {}
