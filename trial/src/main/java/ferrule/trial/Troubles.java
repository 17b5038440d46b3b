package ferrule.trial;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.BiFunction;

/** Every kind of trouble, with the sizes it comes in. */
final class Troubles {

  /** Kinds whose detection is shown against size, with the sizes shown, dB. */
  static final Map<String, List<Double>> SWEEPS = sweeps();

  private static final Map<String, BiFunction<Dice, OptionalDouble, Trouble>> DRAWERS = drawers();

  private Troubles() {}

  static Set<String> kinds() {
    return DRAWERS.keySet();
  }

  /**
   * A trouble of this kind; empty if there is none.
   *
   * @param size its size without sign, or empty to have it drawn
   */
  static Optional<Trouble> draw(String kind, Dice dice, OptionalDouble size) {
    return Optional.ofNullable(DRAWERS.get(kind)).map(d -> d.apply(dice, size));
  }

  private static Map<String, BiFunction<Dice, OptionalDouble, Trouble>> drawers() {
    Map<String, BiFunction<Dice, OptionalDouble, Trouble>> map = new LinkedHashMap<>();
    map.put("zero-shift", (d, s) -> new LevelTroubles.ZeroShift(d.sign() * size(d, s, 0.15, 0.5)));
    map.put(
        "direction-bias",
        (d, s) -> new LevelTroubles.DirectionBias(d.sign() * size(d, s, 0.08, 0.3)));
    map.put(
        "level-step", (d, s) -> new LevelTroubles.LevelStep(mostlyUp(d) * size(d, s, 0.2, 0.5)));
    map.put(
        "level-drift", (d, s) -> new LevelTroubles.LevelDrift(mostlyUp(d) * size(d, s, 0.15, 0.5)));
    map.put("panel-high", (d, s) -> new PlaceTroubles.PanelHigh(size(d, s, 0.12, 0.3)));
    map.put("position-high", (d, s) -> new PlaceTroubles.PositionHigh(size(d, s, 0.12, 0.3)));
    map.put("outlier", (d, s) -> new FibreTroubles.Outlier(size(d, s, 0.4, 0.8)));
    return map;
  }

  private static double size(Dice dice, OptionalDouble given, double low, double high) {
    double drawn = dice.uniform(low, high);
    return given.orElse(drawn);
  }

  private static int mostlyUp(Dice dice) {
    return dice.chance(0.7) ? 1 : -1;
  }

  private static Map<String, List<Double>> sweeps() {
    Map<String, List<Double>> map = new LinkedHashMap<>();
    map.put("zero-shift", List.of(0.05, 0.10, 0.15, 0.20, 0.30, 0.50));
    map.put("level-step", List.of(0.10, 0.15, 0.20, 0.30, 0.50));
    map.put("level-drift", List.of(0.10, 0.15, 0.20, 0.30, 0.50));
    map.put("direction-bias", List.of(0.03, 0.05, 0.08, 0.12, 0.20, 0.30));
    map.put("panel-high", List.of(0.05, 0.08, 0.12, 0.20, 0.30));
    return map;
  }
}
