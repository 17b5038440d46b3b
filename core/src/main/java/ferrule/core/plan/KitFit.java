package ferrule.core.plan;

import ferrule.core.allowance.TestPlugs;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Cord.CordEnd;
import ferrule.core.rulebook.CordGrade;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Which cords on record fit which links. */
final class KitFit {

  private final List<Cord> cords;
  private final Map<ZeroSetup, TestPlugs> plugs = new HashMap<>();

  KitFit(List<Cord> cords) {
    this.cords = cords;
  }

  /** Whether a cord has the links' core and an end that mates with a connector. */
  static boolean fits(Cord cord, ZeroSetup setup, Connector connector) {
    return cord.category().sameCoreAs(setup.glass()) && cord.endFor(connector).isPresent();
  }

  /** The cords with the links' core of which an end mates with a connector. */
  List<Cord> fitting(ZeroSetup setup, Connector connector) {
    List<Cord> found = new ArrayList<>();
    for (Cord cord : cords) {
      if (fits(cord, setup, connector)) {
        found.add(cord);
      }
    }
    return found;
  }

  /** The cords that can stand in for a link: one end for each of its connectors. */
  List<Cord> joining(ZeroSetup setup) {
    List<Cord> found = new ArrayList<>();
    for (Cord cord : cords) {
      if (cord.category().sameCoreAs(setup.glass())
          && (joins(cord.end1(), cord.end2(), setup) || joins(cord.end2(), cord.end1(), setup))) {
        found.add(cord);
      }
    }
    return found;
  }

  private static boolean joins(CordEnd first, CordEnd second, ZeroSetup setup) {
    return first.connector().filter(c -> c.mates(setup.first())).isPresent()
        && second.connector().filter(c -> c.mates(setup.second())).isPresent();
  }

  /** Whether cords with the links' core are on record of which a connector is not. */
  boolean unknown(ZeroSetup setup) {
    return cords.stream()
        .anyMatch(c -> c.category().sameCoreAs(setup.glass()) && !c.connectorsKnown());
  }

  /**
   * The plugs that will stand at a link: of those that fit the best; reference-grade if none is.
   */
  TestPlugs plugs(ZeroSetup setup) {
    return plugs.computeIfAbsent(
        setup,
        s -> {
          Optional<CordGrade> first = best(s, s.first());
          Optional<CordGrade> second = best(s, s.second());
          return new TestPlugs(
              first.orElse(CordGrade.REFERENCE),
              second.orElse(CordGrade.REFERENCE),
              first.isPresent() && second.isPresent());
        });
  }

  private Optional<CordGrade> best(ZeroSetup setup, Connector connector) {
    List<CordGrade> grades = new ArrayList<>();
    for (Cord cord : fitting(setup, connector)) {
      cord.endFor(connector).flatMap(CordEnd::grade).ifPresent(grades::add);
    }
    if (grades.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        grades.contains(CordGrade.REFERENCE) ? CordGrade.REFERENCE : CordGrade.STANDARD);
  }
}
