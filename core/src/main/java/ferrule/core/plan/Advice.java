package ferrule.core.plan;

import ferrule.core.plant.Link;
import ferrule.core.zero.Method;

/**
 * The method advised for a link.
 *
 * @param method how many cords
 * @param why the reason, one sentence
 * @param source where the reason comes from
 * @param trace whether a trace is advised as well
 */
public record Advice(Method method, String why, String source, boolean trace) {

  private static final Advice ONE =
      new Advice(
          Method.ONE_CORD,
          "both ends take the same test plugs: the reading holds both end connections and the zero"
              + " adds least of its own (if both ends are sockets; ends that are plugs call for"
              + " three cords)",
          "public cabling guides; TIA-568.3 and TIA-526-14 prefer it (clause from memory)",
          false);
  private static final Advice UNLIKE =
      new Advice(
          Method.THREE_CORD,
          "the ends take different test plugs, which cannot be mated: with one cord the zero could"
              + " not be verified, with two it could not be set; the third cord joins them",
          "common practice, no source",
          false);
  private static final Advice ARRAY =
      new Advice(
          Method.ONE_CORD,
          "an end is an array: one cord if the meter takes the array plug and its pins fit, three"
              + " cords with their own limit if not",
          "IEC 61280-4-1 and -4-2 cabling configurations (from memory: confirm against the standard)",
          false);

  /** The advice for a link. */
  static Advice of(Link link) {
    ZeroSetup setup = ZeroSetup.of(link);
    Advice advice = !setup.endsMate() ? UNLIKE : setup.holdsArray() ? ARRAY : ONE;
    return traceIsOfUse(link) ? advice.withTrace() : advice;
  }

  /** Whether a trace shows something on a link: splices, or length. */
  static boolean traceIsOfUse(Link link) {
    return link.splices() > 0 || link.lengthM() > Practice.TRACE_FROM.range().usual();
  }

  private Advice withTrace() {
    return new Advice(method, why, source, true);
  }
}
