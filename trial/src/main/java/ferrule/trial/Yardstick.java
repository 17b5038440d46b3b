package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The plain test that one would make by hand on the same readings, told beforehand where to look,
 * when and in which direction: what is left to find by a judge who must look everywhere. Losses
 * less glass, connections and splices at usual figures; one value a fibre. A score that honest jobs
 * seldom reach rings.
 */
final class Yardstick {

  private Yardstick() {}

  /**
   * How far the medians of two groups of fibres lie apart, dB.
   *
   * @param touched the readings that are looked at
   * @param inside the fibres that are held against all others of these readings
   */
  static double level(Collection<RawReading> touched, Set<FibreId> inside) {
    Map<Boolean, List<Double>> values =
        values(touched).entrySet().stream()
            .collect(
                Collectors.partitioningBy(
                    e -> inside.contains(e.getKey()),
                    Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
    List<Double> in = values.getOrDefault(true, List.of());
    List<Double> out = values.getOrDefault(false, List.of());
    return in.isEmpty() || out.isEmpty() ? 0 : Math.abs(median(in) - median(out));
  }

  /**
   * How steadily values rise or fall with the order in which they were read: Spearman's rank
   * correlation by the root of n - 1, nearly normal.
   */
  static double drift(List<RawReading> touched) {
    double[] value = values(touched).values().stream().mapToDouble(v -> v).toArray();
    int n = value.length;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double v = value[i];
      long below = Arrays.stream(value).filter(o -> o < v).count();
      long same = Arrays.stream(value).filter(o -> o == v).count();
      double rank = below + (same - 1) / 2.0 - (n - 1) / 2.0;
      sum += rank * (i - (n - 1) / 2.0);
      squares += rank * rank;
    }
    double all = (n - 1.0) * n * (n + 1) / 12;
    return squares == 0 ? 0 : Math.abs(sum) / Math.sqrt(squares * all) * Math.sqrt(n - 1.0);
  }

  /** How far the two directions of a fibre lie apart in the middle, dB. */
  static double direction(Collection<RawReading> readings) {
    Map<FibreId, Double> apart = new LinkedHashMap<>();
    for (RawReading reading : readings) {
      double signed = (reading.direction == Direction.A_TO_B ? 0.5 : -0.5) * reading.lossDb();
      apart.merge(reading.id(), signed, Double::sum);
    }
    return Math.abs(median(List.copyOf(apart.values())));
  }

  /** Mean of what each fibre lost more than usual, in the order of the readings, dB. */
  private static Map<FibreId, Double> values(Collection<RawReading> readings) {
    Map<FibreId, double[]> sums = new LinkedHashMap<>();
    for (RawReading reading : readings) {
      double[] sum = sums.computeIfAbsent(reading.id(), k -> new double[2]);
      sum[0] += reading.lossDb() - usualDb(reading);
      sum[1]++;
    }
    Map<FibreId, Double> values = new LinkedHashMap<>();
    sums.forEach((id, sum) -> values.put(id, sum[0] / sum[1]));
    return values;
  }

  private static double usualDb(RawReading reading) {
    Link schedule = reading.link.schedule();
    boolean longer = reading.band.longer();
    double perKm =
        reading.link.kind() == FibreKind.SINGLE_MODE ? longer ? 0.20 : 0.34 : longer ? 0.55 : 2.35;
    return schedule.lengthKm() * perKm + 0.2 * schedule.connections() + 0.035 * schedule.splices();
  }

  private static double median(List<Double> values) {
    double[] v = values.stream().mapToDouble(x -> x).sorted().toArray();
    int n = v.length;
    return n % 2 == 1 ? v[n / 2] : (v[n / 2 - 1] + v[n / 2]) / 2;
  }
}
