package ferrule.core.trust;

import ferrule.core.zero.Zero;
import java.util.List;

/**
 * How far one zero can be trusted, and why.
 *
 * @param zero the zero
 * @param trust how far
 * @param reasons why, each in words
 * @param readings how many readings that count were taken under it
 * @param spans how far it could be trusted when, one after another without gaps: from its setting,
 *     or from the first reading under it if that came earlier, to its end, or to the last reading
 *     under it if that came later
 */
public record ZeroTrust(
    Zero zero, Trust trust, List<String> reasons, int readings, List<TrustSpan> spans) {

  /** Copies the lists. */
  public ZeroTrust {
    reasons = List.copyOf(reasons);
    spans = List.copyOf(spans);
  }
}
