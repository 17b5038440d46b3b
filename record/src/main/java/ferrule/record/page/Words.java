package ferrule.record.page;

import ferrule.core.trust.Standing;
import ferrule.core.trust.Trust;
import ferrule.core.trust.TrustSpan;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import java.util.List;

/** What Ferrule's words mean, for a reader who sees them for the first time. */
public final class Words {

  private Words() {}

  /** What a standing means. */
  public static String meaning(Standing standing) {
    return switch (standing) {
      case PROVED -> "every required reading is there, within its limit, and not in doubt";
      case FAILED -> "a reading that can be believed is over its limit";
      case DOUBTFUL -> "a doubt holds readings back: they prove nothing until it is settled";
      case OPEN -> "something required is missing, or a reading lies too near its limit";
    };
  }

  /** What a trust means. */
  public static String meaning(Trust trust) {
    return switch (trust) {
      case FRESH -> "verified, no reading under it yet";
      case VERIFIED -> "verified, every reading soon after";
      case AGEING -> "verified, but readings go on long after";
      case DOUBTFUL -> "not verified, or something about it is odd";
      case BROKEN -> "cannot stand as it is";
    };
  }

  /** A method and how many cords and end connections it means. */
  public static String method(Method method) {
    String cords = method.cords() == 1 ? "one test cord" : method.cords() + " test cords";
    String ends =
        switch (method.endConnections()) {
          case 2 -> "both end connections";
          case 1 -> "one end connection";
          default -> "no end connection";
        };
    return method.word()
        + ": "
        + cords
        + " stood between source and meter when the zero was set; readings hold "
        + ends;
  }

  /** A decision rule in words. */
  public static String rule(DecisionRule rule) {
    return switch (rule) {
      case SIMPLE ->
          "simple: a loss at or under its limit is accepted, one over it rejected; near the limit the"
              + " risk is shared";
      case GUARDED ->
          "guarded: accepted if at or under the limit less the uncertainty (k = 2), rejected if over"
              + " the limit by more than it, otherwise undecided";
    };
  }

  /** "Fresh from 2026-03-02 07:00 to 07:20, verified to 11:00 UTC." */
  public static String overTime(List<TrustSpan> spans) {
    StringBuilder words = new StringBuilder();
    String day = "";
    for (int i = 0; i < spans.size(); i++) {
      TrustSpan span = spans.get(i);
      boolean first = words.length() == 0;
      if (first) {
        day = Show.day(span.from());
      }
      // Of neighbours that differ in their reason alone the last is enough here.
      if (i + 1 < spans.size() && spans.get(i + 1).trust() == span.trust()) {
        continue;
      }
      words.append(first ? "" : ", ").append(span.trust().word());
      if (first) {
        words.append(" from ").append(Show.time(spans.get(0).from()));
      }
      String to = Show.time(span.to());
      words.append(" to ").append(to.startsWith(day) ? to.substring(day.length() + 1) : to);
      day = Show.day(span.to());
    }
    return Show.sentence(words.append(" UTC").toString());
  }

  /** The standing whose band a zero's trust carries: its form, not its word. */
  public static Standing form(Trust trust) {
    return switch (trust) {
      case FRESH, VERIFIED -> Standing.PROVED;
      case AGEING -> Standing.OPEN;
      case DOUBTFUL -> Standing.DOUBTFUL;
      case BROKEN -> Standing.FAILED;
    };
  }
}
