package ferrule.record.page;

import ferrule.core.optics.Decibels;
import ferrule.core.trust.Evidence;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;

/** Numbers, times and words as a reader of the record sees them. */
public final class Show {

  /** Stands where there is no figure. */
  public static final String NOTHING = "none";

  /** Follows a number that rests on a figure from memory; explained on the page. */
  public static final String DAGGER = "†";

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  private static final Map<String, String> UNITS =
      Map.of("_db", " dB", "_dbm", " dBm", "_m", " m", "_hours", " h");

  private Show() {}

  /** dB or dBm with two decimals, without the unit; "none" for NaN. */
  public static String db(double value) {
    return Double.isNaN(value) ? NOTHING : Decibels.shown(value);
  }

  /** Three decimals: parts of an uncertainty are often below 0.01 dB. */
  public static String fine(double value) {
    return String.format(Locale.ROOT, "%.3f", value);
  }

  /** Metres with one decimal; "none" for NaN. */
  public static String metres(double value) {
    return Double.isNaN(value) ? NOTHING : String.format(Locale.ROOT, "%.1f", value);
  }

  /** A count, or a length in km: three decimals at most. */
  public static String amount(double value) {
    return value == Math.rint(value)
        ? Long.toString((long) value)
        : String.format(Locale.ROOT, "%.3f", value);
  }

  /** "5 min", "1 h 20 min". */
  public static String minutes(double minutes) {
    Duration duration = Duration.ofMinutes(Math.round(minutes));
    long hours = duration.toHours();
    int rest = duration.toMinutesPart();
    if (hours == 0) {
      return rest + " min";
    }
    return hours + " h" + (rest == 0 ? "" : " " + rest + " min");
  }

  /** "1 fibre", "3 fibres". */
  public static String count(long number, String noun) {
    return number(number) + " " + noun + (number == 1 ? "" : "s");
  }

  /** A whole number, thousands set off by a no-break space from 10 000 on. */
  public static String number(long number) {
    return Math.abs(number) < 10_000
        ? Long.toString(number)
        : String.format(Locale.ROOT, "%,d", number).replace(',', '\u00A0');
  }

  /** "2026-03-04 08:15"; the head of the column says UTC. */
  public static String time(Instant at) {
    return TIME.format(at);
  }

  /** "2026-03-04". */
  public static String day(Instant at) {
    return DAY.format(at);
  }

  /** The text, or "not on record" if it is empty. */
  public static String orUnknown(String text) {
    return text.isBlank() ? "not on record" : text;
  }

  /** Evidence called "window_low_db" as "window low 0.10 dB". */
  public static String evidence(Evidence evidence) {
    String name = evidence.name();
    for (Map.Entry<String, String> unit : UNITS.entrySet()) {
      if (name.endsWith(unit.getKey())) {
        return spaced(name, unit.getKey().length()) + " " + evidence.shown() + unit.getValue();
      }
    }
    return spaced(name, 0) + ": " + evidence.shown();
  }

  private static String spaced(String name, int cut) {
    return name.substring(0, name.length() - cut).replace('_', ' ');
  }

  /** A sentence that begins with a capital and ends with a full stop. */
  public static String sentence(String text) {
    if (text.isEmpty()) {
      return text;
    }
    int first = text.offsetByCodePoints(0, 1);
    String begun = text.substring(0, first).toUpperCase(Locale.ROOT) + text.substring(first);
    return ".!?…".indexOf(begun.charAt(begun.length() - 1)) >= 0 ? begun : begun + ".";
  }

  /** At most so many letters, the last of them "…" if there were more. */
  public static String cut(String text, int most) {
    return text.codePointCount(0, text.length()) <= most
        ? text
        : text.substring(0, text.offsetByCodePoints(0, most - 1)) + "…";
  }
}
