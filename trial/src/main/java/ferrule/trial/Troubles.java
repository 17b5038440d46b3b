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
    map.put("direction-gap", (d, s) -> new FibreTroubles.DirectionGap(size(d, s, 0.4, 0.8)));
    map.put("below-floor", (d, s) -> new FibreTroubles.BelowFloor(size(d, s, 0.35, 0.7)));
    map.put("wavelength-order", (d, s) -> new FibreTroubles.WavelengthOrder(size(d, s, 0.2, 0.6)));
    map.put("length-scale", (d, s) -> new LengthTroubles.LengthScale(s.orElse(ratio(d))));
    map.put("length-offset", (d, s) -> new LengthTroubles.LengthOffset(size(d, s, 4, 25)));
    map.put("length-gap", (d, s) -> new LengthTroubles.LengthGap(size(d, s, 0.02, 0.4)));
    map.put("crossed", (d, s) -> new LengthTroubles.Crossed(Double.NaN));
    map.put("port-shift", (d, s) -> new LengthTroubles.PortShift(Double.NaN));
    map.put("repeated-values", (d, s) -> new TimeTroubles.RepeatedValues(s.orElse(d.whole(1, 4))));
    map.put("too-quick", (d, s) -> new TimeTroubles.TooQuick(s.orElse(d.whole(3, 8))));
    map.put("clock", (d, s) -> new TimeTroubles.Clock(s.orElse(d.whole(3, 8))));
    map.put("zero-power", (d, s) -> new PaperTroubles.ZeroPower(Double.NaN));
    map.put("zero-unverified", (d, s) -> new PaperTroubles.ZeroUnverified(Double.NaN));
    map.put(
        "zero-verification", (d, s) -> new PaperTroubles.ZeroVerification(size(d, s, 0.03, 0.3)));
    map.put("zero-mismatch", (d, s) -> new PaperTroubles.ZeroMismatch(Double.NaN));
    map.put("zero-lapsed", (d, s) -> new PaperTroubles.ZeroLapsed(Double.NaN));
    map.put("calibration-lapsed", (d, s) -> new PaperTroubles.CalibrationLapsed(Double.NaN));
    map.put("cord-worn", (d, s) -> new PaperTroubles.CordWorn(s.orElse(d.whole(600, 1500))));
    map.put("missing", (d, s) -> new PaperTroubles.Missing(s.orElse(d.whole(1, 4))));
    map.put("unscheduled", (d, s) -> new PaperTroubles.Unscheduled(Double.NaN));
    map.put("double", (d, s) -> new PaperTroubles.ReadTwice(Double.NaN));
    map.put("paper-conflict", (d, s) -> new PaperTroubles.PaperConflict(Double.NaN));
    return map;
  }

  /** Feet for metres, metres for feet, or an index that is a few per cent off. */
  private static double ratio(Dice dice) {
    double how = dice.uniform(0, 1);
    if (how < 0.2) {
      return 1 / 0.3048;
    }
    return how < 0.3 ? 0.3048 : how < 0.7 ? dice.uniform(1.03, 1.08) : dice.uniform(0.92, 0.97);
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
