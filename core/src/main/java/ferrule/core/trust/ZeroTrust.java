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
 */
public record ZeroTrust(Zero zero, Trust trust, List<String> reasons, int readings) {

  /** Copies the list. */
  public ZeroTrust {
    reasons = List.copyOf(reasons);
  }
}
