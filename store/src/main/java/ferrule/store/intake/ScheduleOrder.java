package ferrule.store.intake;

import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
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
final class ScheduleOrder implements Comparator<Reading> {

  private static final Comparator<ZeroLevel> LEVELS =
      Comparator.comparing(ZeroLevel::setAt)
          .thenComparing(ZeroLevel::direction)
          .thenComparingInt(level -> level.wavelength().nm());

  private static final Comparator<Zero> ZEROS =
      Comparator.comparing((Zero zero) -> zero.levels().get(0).setAt()).thenComparing(Zero::id);

  private final Map<String, Integer> places;

  private ScheduleOrder(List<Link> links) {
    places = new HashMap<>(links.size() * 2);
    for (Link link : links) {
      places.putIfAbsent(link.id(), places.size());
    }
  }

  /** The readings in order; the same list if they are. */
  static List<Reading> of(List<Link> links, List<Reading> readings) {
    ScheduleOrder order = new ScheduleOrder(links);
    for (int i = 1; i < readings.size(); i++) {
      if (order.compare(readings.get(i - 1), readings.get(i)) > 0) {
        List<Reading> sorted = new ArrayList<>(readings);
        sorted.sort(order);
        return sorted;
      }
    }
    return readings;
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

  @Override
  public int compare(Reading one, Reading other) {
    if (!one.link().equals(other.link())) {
      int byPlace = Integer.compare(place(one), place(other));
      return byPlace == 0 ? one.link().compareTo(other.link()) : byPlace;
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

  private int place(Reading reading) {
    return places.getOrDefault(reading.link(), Integer.MAX_VALUE);
  }
}
