package ferrule.core.plan;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Finds a job's own pace from the times of its readings.
 *
 * <p>Under each zero the times between one reading and the next are added up; longer ones than
 * {@link #BREAK_MINUTES} are breaks and left out. The sum over the minutes reckoned for the links
 * read is the zero's ratio. The first link is given no time, being there when the clock starts.
 */
final class ObservedPace {

  /** A longer time between two readings is a break or a walk, no test. Assumed, no source. */
  static final double BREAK_MINUTES = 15;

  /** With fewer links a zero says nothing. Assumed, no source. */
  static final int FEWEST_LINKS = 8;

  private ObservedPace() {}

  /** The job's pace, if enough of it has been read. */
  static Optional<Pace> of(Job job) {
    Map<String, Link> links = new HashMap<>();
    job.links().forEach(l -> links.put(l.id(), l));
    Map<String, List<Reading>> byZero = new LinkedHashMap<>();
    for (Reading reading : job.readings()) {
      if (links.containsKey(reading.link())) {
        byZero.computeIfAbsent(reading.reference(), k -> new ArrayList<>()).add(reading);
      }
    }
    Choice required = Choice.required(job.requirement());
    double taken = 0;
    double reckoned = 0;
    double quickest = Double.POSITIVE_INFINITY;
    double slowest = 0;
    int zeros = 0;
    int read = 0;
    for (List<Reading> ofZero : byZero.values()) {
      Stint stint = new Stint(ofZero, links, required);
      if (stint.links >= FEWEST_LINKS && stint.taken > 0) {
        taken += stint.taken;
        reckoned += stint.reckoned;
        quickest = Math.min(quickest, stint.taken / stint.reckoned);
        slowest = Math.max(slowest, stint.taken / stint.reckoned);
        zeros++;
        read += stint.links;
      }
    }
    if (zeros == 0) {
      return Optional.empty();
    }
    double all = taken / reckoned;
    // Rounding may put the mean of one a hair outside itself.
    Range ratio = new Range(Math.min(quickest, all), all, Math.max(slowest, all));
    return Optional.of(new Pace.Observed(ratio, zeros, read));
  }

  /** Work under one zero. */
  private static final class Stint {
    final double taken;
    final double reckoned;
    final int links;

    Stint(List<Reading> readings, Map<String, Link> all, Choice required) {
      List<Instant> times = readings.stream().map(Reading::measuredAt).sorted().toList();
      double minutes = 0;
      for (int i = 1; i < times.size(); i++) {
        double gap = (times.get(i).toEpochMilli() - times.get(i - 1).toEpochMilli()) / 60_000.0;
        if (gap <= BREAK_MINUTES) {
          minutes += gap;
        }
      }
      taken = minutes;
      Reading first =
          readings.stream().min(Comparator.comparing(Reading::measuredAt)).orElseThrow();
      Map<Link, EnumSet<Direction>> ways = new LinkedHashMap<>();
      for (Reading reading : readings) {
        Link link = all.get(reading.link());
        if (link != null && !link.id().equals(first.link())) {
          ways.computeIfAbsent(link, k -> EnumSet.noneOf(Direction.class)).add(reading.direction());
        }
      }
      double sum = 0;
      for (Map.Entry<Link, EnumSet<Direction>> way : ways.entrySet()) {
        Directions directions = way.getValue().size() == 2 ? Directions.BOTH : Directions.ONE;
        Choice seen = new Choice(directions, required.inspection(), required.pictures());
        sum += Pace.USUAL.minutes(way.getKey(), seen).usual();
      }
      reckoned = sum;
      links = ways.size();
    }
  }
}
