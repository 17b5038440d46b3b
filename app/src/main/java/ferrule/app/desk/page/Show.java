package ferrule.app.desk.page;

import ferrule.core.optics.Decibels;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Numbers and times as a reader sees them. */
public final class Show {

  /** Stands where there is no figure. */
  public static final String NOTHING = "none";

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter TIME_WITH_SECONDS =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT).withZone(ZoneOffset.UTC);

  private Show() {}

  /** dB or dBm with two decimals and without the unit; "none" for NaN. */
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

  /** A count, or a length in km: as many decimals as it needs, three at most. */
  public static String amount(double value) {
    return value == Math.rint(value)
        ? Long.toString((long) value)
        : String.format(Locale.ROOT, "%.3f", value);
  }

  /** "0.238 km", "2 connections", "1 splice". */
  public static String amount(double value, String unit) {
    return amount(value) + " " + unit + (value == 1 || unit.equals("km") ? "" : "s");
  }

  /** A probability worked out from a model: never shown as 0 or 100 %, which it cannot know. */
  public static String probability(double probability) {
    return percent(Math.max(1e-9, Math.min(1 - 1e-9, probability)));
  }

  /** "5 min", "1 h 20 min". */
  public static String minutes(double minutes) {
    Duration duration = Duration.ofMinutes(Math.round(minutes));
    long hours = duration.toHours();
    if (hours == 0) {
      return duration.toMinutes() + " min";
    }
    return hours
        + " h"
        + (duration.toMinutesPart() == 0 ? "" : " " + duration.toMinutesPart() + " min");
  }

  /** A share as a percentage; never rounded to 0 or 100 unless it is that. */
  public static String percent(double share) {
    if (Double.isNaN(share)) {
      return NOTHING;
    }
    if (share > 0 && share < 0.001) {
      return "under 0.1 %";
    }
    if (share < 1 && share > 0.999) {
      return "over 99.9 %";
    }
    double tenths = Math.round(share * 1000) / 10.0;
    return (tenths == Math.rint(tenths) ? Long.toString((long) tenths) : Double.toString(tenths))
        + " %";
  }

  /** "1 fibre", "3 fibres". */
  public static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /** "2026-03-04 08:15"; the time is UTC and its head says so. */
  public static String time(Instant at) {
    return TIME.format(at);
  }

  /** The same with seconds. */
  public static String timeWithSeconds(Instant at) {
    return TIME_WITH_SECONDS.format(at);
  }

  /** The text, or "not on record" if it is empty. */
  public static String orUnknown(String text) {
    return text.isEmpty() ? "not on record" : text;
  }

  /** "stored_power_dbm" as "stored power, dBm". */
  public static String evidenceName(String name) {
    String unit = "";
    String stem = name;
    if (name.endsWith("_db")) {
      unit = ", dB";
      stem = name.substring(0, name.length() - 3);
    } else if (name.endsWith("_dbm")) {
      unit = ", dBm";
      stem = name.substring(0, name.length() - 4);
    } else if (name.endsWith("_m")) {
      unit = ", m";
      stem = name.substring(0, name.length() - 2);
    }
    return stem.replace('_', ' ') + unit;
  }

  /** A sentence that begins with a capital and ends with a full stop. */
  public static String sentence(String text) {
    if (text.isEmpty()) {
      return text;
    }
    int first = text.offsetByCodePoints(0, 1);
    String begun = text.substring(0, first).toUpperCase(Locale.ROOT) + text.substring(first);
    char last = begun.charAt(begun.length() - 1);
    return last == '.' || last == '!' || last == '?' ? begun : begun + ".";
  }

  /** A count with its thousands set apart. */
  public static String number(long count) {
    return String.format(Locale.ROOT, "%,d", count).replace(',', '\u202f');
  }
}
