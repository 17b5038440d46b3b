package ferrule.core.zero;

import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A stored reference: the powers that readings under it are compared with.
 *
 * @param id its name
 * @param method how many cords stood in line
 * @param levels one for each direction and wavelength, at least one
 */
public record Zero(String id, Method method, List<ZeroLevel> levels) {

  /**
   * @throws IllegalArgumentException without levels, or with two for one direction and wavelength
   */
  public Zero {
    levels = List.copyOf(levels);
    if (levels.isEmpty()) {
      throw new IllegalArgumentException("A zero needs at least one level");
    }
    long distinct =
        levels.stream().map(l -> l.direction().word() + l.wavelength().nm()).distinct().count();
    if (distinct != levels.size()) {
      throw new IllegalArgumentException("Zero " + id + " holds two levels for one case");
    }
  }

  /**
   * The level that a reading in this direction and wavelength is compared with, if there is one.
   */
  public Optional<ZeroLevel> level(Direction direction, Wavelength wavelength) {
    for (ZeroLevel level : levels) {
      if (level.direction() == direction && level.wavelength().equals(wavelength)) {
        return Optional.of(level);
      }
    }
    return Optional.empty();
  }

  /** When its first level was set. */
  public Instant setAt() {
    return levels.stream().map(ZeroLevel::setAt).min(Instant::compareTo).orElseThrow();
  }
}
