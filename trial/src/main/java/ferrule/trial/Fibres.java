package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;

/** Sets of fibres of a campaign. */
final class Fibres {

  private Fibres() {}

  static Set<FibreId> of(Collection<RawReading> readings) {
    Set<FibreId> fibres = new HashSet<>();
    readings.forEach(r -> fibres.add(r.id()));
    return fibres;
  }

  static Set<FibreId> of(TrueLink link) {
    Set<FibreId> fibres = new HashSet<>();
    for (int f = 1; f <= link.schedule().fibres(); f++) {
      fibres.add(new FibreId(link.id(), f));
    }
    return fibres;
  }

  /** Fibres with an end at each place. */
  static Map<String, Set<FibreId>> byPlace(Campaign campaign) {
    Map<String, Set<FibreId>> places = new TreeMap<>();
    for (TrueLink link : campaign.site.links) {
      places.computeIfAbsent(link.schedule().a().place(), k -> new HashSet<>()).addAll(of(link));
      places.computeIfAbsent(link.schedule().b().place(), k -> new HashSet<>()).addAll(of(link));
    }
    return places;
  }

  /** Whether each of these sets lies wholly inside or wholly outside the fibres of a kind. */
  static boolean madeOf(Set<FibreId> fibres, Collection<Set<FibreId>> sets, Set<FibreId> all) {
    Set<FibreId> covered = new HashSet<>();
    for (Set<FibreId> set : sets) {
      Set<FibreId> own = new HashSet<>(set);
      own.retainAll(all);
      Set<FibreId> inside = new HashSet<>(own);
      inside.retainAll(fibres);
      if (inside.size() == own.size()) {
        covered.addAll(inside);
      }
    }
    return covered.equals(fibres);
  }

  static Set<FibreId> of(Campaign campaign, FibreKind kind) {
    Set<FibreId> fibres = new HashSet<>();
    campaign.site.of(kind).forEach(l -> fibres.addAll(of(l)));
    return fibres;
  }

  /** Sessions of one kind with at least so many fibres. */
  static List<Session> sessions(Campaign campaign, int leastFibres, int leastZeros) {
    return campaign.sessions.stream()
        .filter(s -> of(s.readings).size() >= leastFibres)
        .filter(
            s -> campaign.sessions.stream().filter(o -> o.kind() == s.kind()).count() >= leastZeros)
        .toList();
  }

  static List<RawReading> where(Collection<RawReading> readings, Predicate<RawReading> test) {
    return readings.stream().filter(test).toList();
  }

  static String word(Direction direction) {
    return direction == Direction.A_TO_B ? "A-B" : "B-A";
  }
}
