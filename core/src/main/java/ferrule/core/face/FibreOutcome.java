package ferrule.core.face;

/**
 * What one fibre of a row came to, as a job keeps it.
 *
 * @param outcome of this fibre
 * @param close whether a size lay within its own uncertainty of a limit
 * @param reason the weightiest reason, one line
 */
public record FibreOutcome(FaceOutcome outcome, boolean close, String reason) {}
