package ferrule.store.intake;

import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Puts readings and zeros in one order, whatever order they were handed in: by the schedule, fibre,
 * time, direction and wavelength; links that are not in the schedule by name behind it. So a job is
 * judged with the same bytes of output whether one crew handed it in or several. Readings alike in
 * all of these stay as they were handed in: of equal times the last counts.
 */
final class ScheduleOrder {

  private static final Comparator<ZeroLevel> LEVELS =
      Comparator.comparing(ZeroLevel::setAt)
          .thenComparing(ZeroLevel::direction)
          .thenComparingInt(level -> level.wavelength().nm());

  private static final Comparator<Zero> ZEROS =
      Comparator.comparing((Zero zero) -> zero.levels().get(0).setAt()).thenComparing(Zero::id);

  private ScheduleOrder() {}

  /** The readings in order; the same list if they are. */
  static List<Reading> of(List<Link> links, List<Reading> readings) {
    int[] places = places(links, readings);
    boolean ordered = true;
    for (int i = 1; i < places.length && ordered; i++) {
      ordered =
          places[i - 1] < places[i]
              || (places[i - 1] == places[i] && compare(readings.get(i - 1), readings.get(i)) <= 0);
    }
    return ordered ? readings : sorted(readings, places, links.size());
  }

  /** Deals the readings out to their links first: a table that is not by link is long. */
  private static List<Reading> sorted(List<Reading> readings, int[] places, int links) {
    int[] next = new int[links + 2];
    for (int place : places) {
      next[place + 1]++;
    }
    for (int place = 1; place < next.length; place++) {
      next[place] += next[place - 1];
    }
    int[] begins = next.clone();
    Reading[] dealt = new Reading[places.length];
    for (int i = 0; i < places.length; i++) {
      dealt[next[places[i]]++] = readings.get(i);
    }
    for (int place = 0; place <= links; place++) {
      Arrays.sort(dealt, begins[place], begins[place + 1], ScheduleOrder::compare);
    }
    return Arrays.asList(dealt);
  }

  /** The place of each reading's link in the schedule; behind all of it if it is not there. */
  private static int[] places(List<Link> links, List<Reading> readings) {
    Map<String, Integer> byLink = new HashMap<>(links.size() * 2);
    for (int i = 0; i < links.size(); i++) {
      byLink.putIfAbsent(links.get(i).id(), i);
    }
    int[] places = new int[readings.size()];
    String last = "";
    int place = byLink.getOrDefault(last, links.size());
    for (int i = 0; i < places.length; i++) {
      String link = readings.get(i).link();
      if (!link.equals(last)) {
        last = link;
        place = byLink.getOrDefault(link, links.size());
      }
      places[i] = place;
    }
    return places;
  }

  private static int compare(Reading one, Reading other) {
    int byLink = one.link().equals(other.link()) ? 0 : one.link().compareTo(other.link());
    if (byLink != 0) {
      return byLink;
    }
    if (one.fibre() != other.fibre()) {
      return Integer.compare(one.fibre(), other.fibre());
    }
    int byTime = one.measuredAt().compareTo(other.measuredAt());
    if (byTime != 0) {
      return byTime;
    }
    if (one.direction() != other.direction()) {
      return one.direction().compareTo(other.direction());
    }
    return Integer.compare(one.wavelength().nm(), other.wavelength().nm());
  }

  /** Zeros in the order in which they were set, and so the levels of each. */
  static List<Zero> of(List<Zero> zeros) {
    return zeros.stream()
        .map(
            zero ->
                new Zero(zero.id(), zero.method(), zero.levels().stream().sorted(LEVELS).toList()))
        .sorted(ZEROS)
        .toList();
  }
}
