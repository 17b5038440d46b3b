package ferrule.store.job;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the times in two job files say about the clocks that gave them. Times are kept as they are;
 * nothing is put right in silence.
 */
final class JoinClocks {

  /** Clocks this close agree. Common practice, no source. */
  private static final Duration CLOSE = Duration.ofMinutes(10);

  /** So many readings alike but for one and the same shift are no chance. */
  private static final int ENOUGH = 3;

  private JoinClocks() {}

  /**
   * Lines to be shown.
   *
   * @param now by this machine's clock
   */
  static List<String> notes(JoinMerge merge, JoinedLog first, JoinedLog second, Instant now) {
    List<String> notes = new ArrayList<>();
    for (JoinedLog log : List.of(first, second)) {
      aheadOfNow(log, now).ifPresent(notes::add);
      measuredAfterEntered(log).ifPresent(notes::add);
    }
    oneShift(merge, first, second).ifPresent(notes::add);
    return notes;
  }

  private static Optional<String> aheadOfNow(JoinedLog log, Instant now) {
    Instant latest = latestEntered(log.entries());
    Duration ahead = Duration.between(now, latest);
    return ahead.compareTo(CLOSE) > 0
        ? Optional.of(
            log.shown()
                + " was last added to at "
                + latest
                + ", "
                + shown(ahead)
                + " ahead of this machine's clock: one of the two clocks is wrong. Times are kept"
                + " as they are")
        : Optional.empty();
  }

  private static Optional<String> measuredAfterEntered(JoinedLog log) {
    Duration most = Duration.ZERO;
    int count = 0;
    for (Entry entry : log.entries()) {
      if (entry.kind().equals(EntryKind.READING.word())) {
        Duration ahead = Duration.between(time(entry.enteredAt()), time(measuredAt(entry)));
        if (ahead.compareTo(CLOSE) > 0) {
          count++;
          most = ahead.compareTo(most) > 0 ? ahead : most;
        }
      }
    }
    return count == 0
        ? Optional.empty()
        : Optional.of(
            log.shown()
                + ": "
                + (count == 1 ? "1 reading was" : count + " readings were")
                + " measured after being entered, by up to "
                + shown(most)
                + ": the clock of the instrument or of the computer was wrong. Times are kept as"
                + " they are");
  }

  /** Readings of the two files that are alike but for the time, all by one shift. */
  private static Optional<String> oneShift(JoinMerge merge, JoinedLog first, JoinedLog second) {
    Map<String, Instant> ours = alone(merge, first);
    Map<Duration, Integer> shifts = new LinkedHashMap<>();
    alone(merge, second)
        .forEach(
            (said, at) -> {
              Instant own = ours.get(said);
              if (own != null && !own.equals(at)) {
                shifts.merge(Duration.between(own, at), 1, Integer::sum);
              }
            });
    return shifts.entrySet().stream()
        .filter(e -> e.getValue() >= ENOUGH)
        .max(Map.Entry.comparingByValue())
        .map(
            e ->
                e.getValue()
                    + " readings of the two files are alike but for their times, which lie "
                    + shown(e.getKey().abs())
                    + " apart, those of "
                    + (e.getKey().isNegative() ? first : second).shown()
                    + " later: if a clock was wrong by that much they are the same readings. Both"
                    + " are kept");
  }

  /** Readings of one file only by all that they say but the time; none that says it twice. */
  private static Map<String, Instant> alone(JoinMerge merge, JoinedLog log) {
    Map<String, Instant> times = new HashMap<>();
    Set<String> twice = new HashSet<>();
    for (Entry entry : log.entries()) {
      if (entry.kind().equals(EntryKind.READING.word())
          && !merge.inBoth(entry)
          && !merge.isTwin(entry)) {
        String at = measuredAt(entry);
        String said = entry.content().replace(at, "");
        if (times.put(said, time(at)) != null) {
          twice.add(said);
        }
      }
    }
    twice.forEach(times::remove);
    return times;
  }

  private static String measuredAt(Entry reading) {
    return EntryCodec.flat(reading.content()).getOrDefault("measured_at", "");
  }

  /** When the last entry was made, by the clocks of those who made them. */
  static Instant latestEntered(List<Entry> entries) {
    Instant latest = Instant.MIN;
    for (Entry entry : entries) {
      Instant at = time(entry.enteredAt());
      latest = at.isAfter(latest) ? at : latest;
    }
    return latest;
  }

  private static Instant time(String text) {
    try {
      return Instant.parse(text);
    } catch (java.time.format.DateTimeParseException e) {
      throw new DamagedEntryException("a time that is none: " + text);
    }
  }

  /** "1 day 2 h", "23 h 10 min", "14 min". */
  private static String shown(Duration duration) {
    long days = duration.toDays();
    if (days > 0) {
      return (days == 1 ? "1 day" : days + " days")
          + (duration.toHoursPart() > 0 ? " " + duration.toHoursPart() + " h" : "");
    }
    if (duration.toHours() > 0) {
      return duration.toHours() + " h " + duration.toMinutesPart() + " min";
    }
    return duration.toMinutes() > 0 ? duration.toMinutes() + " min" : duration.toSeconds() + " s";
  }
}
