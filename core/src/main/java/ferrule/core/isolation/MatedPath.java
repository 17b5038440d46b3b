package ferrule.core.isolation;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Cords mated one behind another, from the source to the meter. The outer ends, at source and
 * meter, belong to the one-cord zero and take no part.
 */
public final class MatedPath {

  /** More matings in a row than anyone measures. */
  public static final int MOST_MATINGS = 9;

  private final List<Mating> matings;

  private MatedPath(List<Mating> matings) {
    this.matings = List.copyOf(matings);
  }

  /**
   * Joins matings to a path, each turned as the light must pass it; a single mating stays as given.
   *
   * @param matings in the order of the light, 1 to {@link #MOST_MATINGS}
   * @return empty if no light can pass: a cord must enter the next mating with its other end, and
   *     no cord can stand in two places
   */
  public static Optional<MatedPath> joined(List<Mating> matings) {
    if (matings.isEmpty() || matings.size() > MOST_MATINGS) {
      return Optional.empty();
    }
    return joined(matings, matings.get(0)).or(() -> joined(matings, matings.get(0).turned()));
  }

  private static Optional<MatedPath> joined(List<Mating> matings, Mating start) {
    List<Mating> path = new ArrayList<>(List.of(start));
    Set<String> cords = new HashSet<>(List.of(start.first().cord(), start.second().cord()));
    for (Mating next : matings.subList(1, matings.size())) {
      EndId before = path.get(path.size() - 1).second();
      EndId out = new EndId(before.cord(), 3 - before.number());
      Mating turned = next.first().equals(out) ? next : next.turned();
      if (!turned.first().equals(out) || !cords.add(turned.second().cord())) {
        return Optional.empty();
      }
      path.add(turned);
    }
    return Optional.of(new MatedPath(path));
  }

  /** A path of two cords. */
  public static MatedPath of(EndId launch, EndId receive) {
    return new MatedPath(List.of(new Mating(launch, receive)));
  }

  /** The matings, as the light passes them. */
  public List<Mating> matings() {
    return matings;
  }

  /** Every mated end, as the light passes them. */
  public List<EndId> ends() {
    List<EndId> ends = new ArrayList<>();
    for (Mating mating : matings) {
      ends.add(mating.first());
      ends.add(mating.second());
    }
    return ends;
  }

  /** The end of the launch cord, on whose level the zero was set. */
  public EndId launch() {
    return matings.get(0).first();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof MatedPath path && matings.equals(path.matings);
  }

  @Override
  public int hashCode() {
    return matings.hashCode();
  }

  /** As the table of readings writes it: "L1/2+X1/1; X1/2+R1/1". */
  @Override
  public String toString() {
    return String.join("; ", matings.stream().map(Mating::toString).toList());
  }
}
