package ferrule.core.trust;

import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** The readings that count, by the level of the zero that each was compared with. */
public final class ByLevel {

  private final Map<ZeroLevel, List<AssessedReading>> byLevel = new IdentityHashMap<>();

  ByLevel() {}

  /** Adds what was read under a level; only readings that count are kept. */
  void add(ZeroLevel level, List<AssessedReading> readings) {
    readings.removeIf(reading -> !reading.current());
    byLevel.put(level, Collections.unmodifiableList(readings));
  }

  /** Readings under one level, in the order handed in. */
  public List<AssessedReading> of(ZeroLevel level) {
    return byLevel.getOrDefault(level, List.of());
  }

  /** Readings under those levels of a zero that satisfy a condition, in the order handed in. */
  public List<AssessedReading> of(Zero zero, Predicate<ZeroLevel> which) {
    List<AssessedReading> readings = new ArrayList<>();
    for (ZeroLevel level : zero.levels()) {
      if (which.test(level)) {
        readings.addAll(of(level));
      }
    }
    readings.sort(java.util.Comparator.comparingInt(AssessedReading::index));
    return readings;
  }
}
