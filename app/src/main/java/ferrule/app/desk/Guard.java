package ferrule.app.desk;

import java.util.Locale;
import java.util.Map;

/**
 * Who may ask, and what a browser may do with the answer.
 *
 * <p>The desk listens on the loopback address only, yet a page from elsewhere could have its name
 * resolve to that address and then read the desk through the browser ("DNS rebinding"). Such a
 * request carries the foreign name in its Host header, so any name but this machine's own is
 * refused.
 */
final class Guard {

  /** Nothing but what the desk itself serves; no inline script or style; nobody may frame it. */
  private static final String POLICY =
      "default-src 'none'; style-src 'self'; script-src 'self'; font-src 'self'; img-src 'self';"
          + " connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

  /** Headers of every answer. */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy", POLICY,
          "X-Content-Type-Options", "nosniff",
          // Not "no-referrer": a browser then sends forms as coming from nowhere ("Origin: null").
          "Referrer-Policy", "same-origin",
          "Cross-Origin-Opener-Policy", "same-origin",
          "Cross-Origin-Resource-Policy", "same-origin",
          "X-Frame-Options", "DENY",
          "Cache-Control", "no-cache");

  private Guard() {}

  /**
   * Whether a Host header names this machine and this port.
   *
   * @param host the header; empty if absent
   * @param port the port the desk listens on
   */
  static boolean isOwnHost(String host, int port) {
    String name = host.toLowerCase(Locale.ROOT);
    String suffix = ":" + port;
    if (name.endsWith(suffix)) {
      name = name.substring(0, name.length() - suffix.length());
    } else if (port != 80) {
      return false;
    }
    return name.equals("localhost") || name.equals("127.0.0.1") || name.equals("[::1]");
  }

  /**
   * Whether a request that would change something comes from a page of this desk: by what the
   * browser says of it (Fetch Metadata, and the Origin header of RFC 6454). A browser too old to
   * say either, or a program that does not, is refused.
   *
   * @param host the Host header, which {@link #isOwnHost} has found right
   * @param origin the Origin header; empty if absent
   * @param site the Sec-Fetch-Site header; empty if absent
   */
  static boolean isOwnPage(String host, String origin, String site) {
    if (origin.isEmpty() && site.isEmpty()) {
      return false;
    }
    return (origin.isEmpty() || origin.equalsIgnoreCase("http://" + host))
        && (site.isEmpty() || site.equals("same-origin"));
  }
}
