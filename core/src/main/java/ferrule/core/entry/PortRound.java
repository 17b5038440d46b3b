package ferrule.core.entry;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.plant.PortOrder;
import ferrule.core.zero.Reading;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;

/**
 * The fibres that end at one place, in the order of its ports, and which of them are still to be
 * read in one direction.
 *
 * @param place the place; empty for the whole schedule in its own order
 * @param direction in which they are read
 * @param stops the fibres, in order
 */
public record PortRound(String place, Direction direction, List<Stop> stops) {

  /**
   * One fibre.
   *
   * @param fibre which
   * @param link its link
   * @param here the end at this place; end A for the whole schedule
   * @param there the other end
   * @param required wavelengths at which it must be read, rising
   * @param open those of them at which it has not been read in this direction; where one direction
   *     is enough, in neither
   */
  public record Stop(
      FibreId fibre,
      Link link,
      LinkEnd here,
      LinkEnd there,
      List<Wavelength> required,
      List<Wavelength> open) {

    /** Copies the lists. */
    public Stop {
      required = List.copyOf(required);
      open = List.copyOf(open);
    }

    /** Whether something is still to be read. */
    public boolean isOpen() {
      return !open.isEmpty();
    }
  }

  /** Copies the list. */
  public PortRound {
    stops = List.copyOf(stops);
  }

  /**
   * The round at a place.
   *
   * @param job the job
   * @param place an end of links; empty for all of them
   * @param direction in which they are read
   */
  public static PortRound of(Job job, String place, Direction direction) {
    List<Link> links =
        job.links().stream()
            .filter(
                l -> place.isEmpty() || l.a().place().equals(place) || l.b().place().equals(place))
            .toList();
    Map<FibreId, Set<Integer>> read = read(job, links, direction);
    Map<FibreCategory, List<Wavelength>> required = new EnumMap<>(FibreCategory.class);
    List<Stop> stops = new ArrayList<>();
    for (Link link : links) {
      List<Wavelength> wanted =
          required.computeIfAbsent(
              link.category(), c -> List.copyOf(wavelengths(job.requirement(), c)));
      boolean atA = place.isEmpty() || link.a().place().equals(place);
      for (FibreId fibre : link.fibreIds()) {
        Set<Integer> there = read.getOrDefault(fibre, Set.of());
        stops.add(
            new Stop(
                fibre,
                link,
                atA ? link.a() : link.b(),
                atA ? link.b() : link.a(),
                wanted,
                wanted.stream().filter(w -> !there.contains(w.nm())).toList()));
      }
    }
    if (!place.isEmpty()) {
      stops.sort(Comparator.comparing(stop -> stop.here().port(), PortOrder.ANY_CASE));
    }
    return new PortRound(place, direction, stops);
  }

  /** Where the rulebook has no figures for the glass, what the job asks for. */
  private static SortedSet<Wavelength> wavelengths(
      Requirement requirement, FibreCategory category) {
    SortedSet<Wavelength> limited = requirement.wavelengthsFor(category);
    return limited.isEmpty() ? requirement.wavelengths() : limited;
  }

  private static Map<FibreId, Set<Integer>> read(Job job, List<Link> links, Direction direction) {
    Set<String> ids = new HashSet<>();
    links.forEach(link -> ids.add(link.id()));
    boolean either = job.requirement().directions() == Requirement.Directions.ONE;
    Map<FibreId, Set<Integer>> read = new HashMap<>();
    for (Reading reading : job.readings()) {
      if ((either || reading.direction() == direction) && ids.contains(reading.link())) {
        read.computeIfAbsent(reading.fibreId(), k -> new HashSet<>(4))
            .add(reading.wavelength().nm());
      }
    }
    return read;
  }

  /** The stop of a fibre, if it is on this round. */
  public Optional<Stop> stop(FibreId fibre) {
    return stops.stream().filter(stop -> stop.fibre().equals(fibre)).findFirst();
  }

  /** How many fibres are still to be read. */
  public long openCount() {
    return stops.stream().filter(Stop::isOpen).count();
  }

  /**
   * The fibres still to be read, beginning behind one fibre and going once around; that fibre comes
   * last if it is still open itself.
   *
   * @param after the fibre read last; from the first port if empty or not on this round
   */
  public List<Stop> comingAfter(Optional<FibreId> after) {
    int from = 0;
    for (int i = 0; after.isPresent() && i < stops.size(); i++) {
      if (stops.get(i).fibre().equals(after.get())) {
        from = i + 1;
        break;
      }
    }
    List<Stop> coming = new ArrayList<>();
    for (int i = 0; i < stops.size(); i++) {
      Stop stop = stops.get((from + i) % stops.size());
      if (stop.isOpen()) {
        coming.add(stop);
      }
    }
    return coming;
  }
}
