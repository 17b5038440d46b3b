package ferrule.app.desk.page;

import ferrule.core.trust.Trust;
import ferrule.core.trust.TrustSpan;
import ferrule.core.trust.ZeroTrust;
import ferrule.record.chart.TrustLine;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** How far a zero could be trusted when: a line of time and the same in words. */
public final class TrustTime {

  private static final int WIDTH = 300;
  private static final int HEIGHT = 14;
  private static final int SAMPLE = 28;

  private TrustTime() {}

  /**
   * A stretch in words.
   *
   * @param time "07:00 to 11:00", with the day where it changes
   * @param span the stretch
   */
  public record Stretch(String time, TrustSpan span) {}

  /** The drawing. */
  public static String svg(ZeroTrust zero) {
    return TrustLine.svg(zero.spans(), WIDTH, HEIGHT);
  }

  /** The form of one trust, for the key. */
  public static String sample(Trust trust) {
    return TrustLine.sample(trust, SAMPLE, HEIGHT);
  }

  /** "fresh to 07:20, verified to 11:00, ageing to 19:00". */
  public static String inShort(ZeroTrust zero) {
    List<String> parts = new ArrayList<>();
    Instant before = zero.spans().get(0).from();
    List<TrustSpan> spans = zero.spans();
    for (int i = 0; i < spans.size(); i++) {
      // Of neighbours that differ in their reason alone the last is enough here.
      if (i + 1 < spans.size() && spans.get(i + 1).trust() == spans.get(i).trust()) {
        continue;
      }
      parts.add(spans.get(i).trust().word() + " to " + clock(spans.get(i).to(), before));
      before = spans.get(i).to();
    }
    return String.join(", ", parts);
  }

  /** Every stretch with its times. */
  public static List<Stretch> stretches(ZeroTrust zero) {
    List<Stretch> stretches = new ArrayList<>();
    for (TrustSpan span : zero.spans()) {
      stretches.add(
          new Stretch(
              Show.time(span.from()) + " to " + clock(span.to(), span.from()) + " UTC", span));
    }
    return stretches;
  }

  /** The time of day; with the day if it is another one than that of the time before. */
  private static String clock(Instant at, Instant before) {
    String shown = Show.time(at);
    int day = shown.lastIndexOf(' ');
    return Show.time(before).startsWith(shown.substring(0, day + 1))
        ? shown.substring(day + 1)
        : shown;
  }
}
