package ferrule.core.array;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The array links of a job, with what was measured of them. */
public final class JobArrays {

  private final Map<String, ArrayLink> links = new LinkedHashMap<>();
  private final Map<String, List<MeasuredMap>> measured = new LinkedHashMap<>();
  private final Map<String, List<ArrayLink>> byPart = new LinkedHashMap<>();

  /** Puts the parts together, links in the order in which they first come. */
  public JobArrays(List<ArrayPart> parts, List<MeasuredPosition> positions) {
    Map<String, List<ArrayPart>> byLink = new LinkedHashMap<>();
    for (ArrayPart part : parts) {
      byLink.computeIfAbsent(part.link(), k -> new ArrayList<>()).add(part);
    }
    byLink.forEach((id, own) -> links.put(id, new ArrayLink(id, own)));
    Map<String, List<MeasuredPosition>> read = new LinkedHashMap<>();
    for (MeasuredPosition position : positions) {
      read.computeIfAbsent(position.link(), k -> new ArrayList<>()).add(position);
    }
    read.forEach(
        (id, own) -> {
          ArrayLink link = links.get(id);
          if (link != null) {
            measured.put(id, PolarityCheck.maps(link, own));
          }
        });
    for (ArrayLink link : links.values()) {
      for (ArrayPart part : link.parts()) {
        byPart
            .computeIfAbsent(part.kind().word() + " " + part.part(), k -> new ArrayList<>())
            .add(link);
      }
    }
  }

  /** The links that have parts. */
  public List<ArrayLink> links() {
    return List.copyOf(links.values());
  }

  /** The first so many of them, each in a few lines. */
  public List<ArraySummary> summaries(int most) {
    return links.values().stream().limit(most).map(link -> ArraySummary.of(link, this)).toList();
  }

  /** One of them in a few lines. */
  public Optional<ArraySummary> summary(String id) {
    return link(id).map(link -> ArraySummary.of(link, this));
  }

  /** One of them. */
  public Optional<ArrayLink> link(String id) {
    return Optional.ofNullable(links.get(id));
  }

  /** What was measured of a link against its parts; empty if nothing was, or it has no parts. */
  public Optional<PolarityCheck> check(String id) {
    ArrayLink link = links.get(id);
    List<MeasuredMap> maps = measured.get(id);
    return link == null || maps == null
        ? Optional.empty()
        : Optional.of(PolarityCheck.of(link, maps, suspect -> cleared(link, suspect)));
  }

  /** How many positions of a link were read at its far end. */
  public int read(String id) {
    return farEnd(id).map(MeasuredMap::read).orElse(0);
  }

  /** The map measured at the far end, if every position came out. */
  public Optional<PositionMap> measured(String id) {
    return farEnd(id).flatMap(MeasuredMap::whole);
  }

  private Optional<MeasuredMap> farEnd(String id) {
    ArrayLink link = links.get(id);
    return link == null
        ? Optional.empty()
        : measured.getOrDefault(id, List.of()).stream()
            .filter(m -> m.part() == link.parts().size() - 1)
            .findFirst();
  }

  /**
   * A part of another type shows in every link that runs through it: one that came out as computed
   * clears it.
   */
  private boolean cleared(ArrayLink link, Suspect suspect) {
    if (suspect.as() == MapType.LISTED || suspect.stage() % 2 != 0) {
      return false;
    }
    ArrayPart part = link.parts().get(suspect.stage() / 2);
    for (ArrayLink other : byPart.getOrDefault(part.named(), List.of())) {
      PositionMap came = other == link ? null : measured(other.id()).orElse(null);
      if (came != null && other.map().filter(came::equals).isPresent()) {
        return true;
      }
    }
    return false;
  }
}
