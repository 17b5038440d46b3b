package ferrule.core.trust;

import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** The readings that count, by the level of the zero that each was compared with. */
public final class ByLevel {

  private record Under(
      List<AssessedReading> readings,
      Instant earliest,
      Instant latest,
      boolean contradicted,
      List<LinkLook> looks) {}

  private final Map<ZeroLevel, Under> byLevel = new IdentityHashMap<>();

  ByLevel() {}

  /** Adds what was read under a level; only readings that count are kept. */
  void add(ZeroLevel level, List<AssessedReading> readings, List<LinkLook> looks) {
    readings.removeIf(reading -> !reading.current());
    Instant earliest = level.setAt();
    Instant latest = level.setAt();
    boolean contradicted = false;
    for (AssessedReading reading : readings) {
      Instant at = reading.reading().measuredAt();
      if (at.isAfter(latest)) {
        latest = at;
      } else if (at.isBefore(earliest)) {
        earliest = at;
      }
      contradicted |= reading.contradictsZero();
    }
    byLevel.put(
        level,
        new Under(Collections.unmodifiableList(readings), earliest, latest, contradicted, looks));
  }

  private Under under(ZeroLevel level) {
    Under under = byLevel.get(level);
    return under == null
        ? new Under(List.of(), level.setAt(), level.setAt(), false, List.of())
        : under;
  }

  /** Readings under one level, in the order handed in. */
  public List<AssessedReading> of(ZeroLevel level) {
    return under(level).readings();
  }

  /** When the last of them was taken; when the level was set, if that is later. */
  public Instant latest(ZeroLevel level) {
    return under(level).latest();
  }

  /** When the first of them was taken; when the level was set, if that is earlier. */
  public Instant earliest(ZeroLevel level) {
    return under(level).earliest();
  }

  /** Whether power and loss of one of them contradict the level's power. */
  public boolean contradicted(ZeroLevel level) {
    return under(level).contradicted();
  }

  /** What the links read under it look like to it, replaced attempts included. */
  public List<LinkLook> looks(ZeroLevel level) {
    return under(level).looks();
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
