package ferrule.core.trust;

import java.time.Instant;

/**
 * A stretch of time in which a zero could be trusted as far as said.
 *
 * @param from its beginning
 * @param to its end, not before the beginning
 * @param trust how far
 * @param reason why, in words
 */
public record TrustSpan(Instant from, Instant to, Trust trust, String reason) {}
