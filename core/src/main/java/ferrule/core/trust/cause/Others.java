package ferrule.core.trust.cause;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.joint.FibreExcess;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * The other fibres of a job, one of which may have been connected instead: links that differ in
 * length or in what they are made of, with the loss expected of each. Looked up when first needed.
 */
final class Others {

  /** Links looked at for each category. */
  private static final int MOST = 48;

  private static final double ROUGH_DB = 0.05;

  /** Lengths from here on tell the ratio of measured and scheduled. */
  private static final double ENOUGH_M = 10;

  private record Sort(double lengthM, int connections, int splices, int devices) {
    static Sort of(Link link) {
      return new Sort(link.lengthM(), link.connections(), link.splices(), link.devices().size());
    }

    /** Lengths of few decimals differ in few bits: mixed, or thousands of them share a place. */
    @Override
    public int hashCode() {
      long mixed = Double.doubleToLongBits(lengthM) * 0x9E3779B97F4A7C15L;
      return (int) (mixed >>> 32) + 31 * (connections + 31 * (splices + 31 * devices));
    }
  }

  /** A link, and the loss expected of it in each case by wavelength and direction, dB. */
  private record Other(Sort sort, Map<Integer, Double> expected) {}

  private record Looked(Map<FibreCategory, List<Other>> byCategory, double ratio) {}

  private final Ledger ledger;
  private final Supplier<Looked> looked;

  Others(Ledger ledger) {
    this.ledger = ledger;
    this.looked = new Once();
  }

  /** The length of a fibre: the median of what was measured, in the job's own ratio. */
  LengthLook length(int slot) {
    double measured = measuredM(slot);
    return new LengthLook(
        Double.isNaN(measured) ? measured : measured / looked.get().ratio(),
        ledger.link(slot).lengthM());
  }

  private double measuredM(int slot) {
    List<AssessedReading> readings = ledger.readings(slot);
    double[] found = new double[readings.size()];
    int count = 0;
    for (AssessedReading reading : readings) {
      if (reading.current() && reading.reading().hasLength()) {
        found[count++] = reading.reading().lengthM();
      }
    }
    Arrays.sort(found, 0, count);
    return count == 0 ? Double.NaN : found[count / 2];
  }

  /** How well the readings and the length of a fibre fit that another one was connected. */
  double logLikelihood(int slot, FibreExcess excess, double[][] honest, LengthLook length) {
    Link link = ledger.link(slot);
    Sort own = Sort.of(link);
    List<Other> candidates = looked.get().byCategory().getOrDefault(link.category(), List.of());
    List<AssessedReading> readings = excess.readings();
    int d = readings.size();
    double[][] covariance = new double[d][];
    for (int k = 0; k < d; k++) {
      covariance[k] = honest[k].clone();
      covariance[k][k] += ROUGH_DB * ROUGH_DB;
    }
    Normal about = new Normal(new double[d], covariance);
    double[] db = excess.db();
    LogSum sum = new LogSum();
    int count = 0;
    for (Other other : candidates) {
      if (other.sort().equals(own)) {
        continue;
      }
      double[] left = new double[d];
      boolean known = true;
      for (int k = 0; k < d; k++) {
        Double expected = other.expected().get(caseOf(readings.get(k)));
        known &= expected != null;
        left[k] = expected == null ? 0 : db[k] + Exchanged.expected(readings.get(k)) - expected;
      }
      if (known) {
        sum.add(about.logDensity(left) + length.logDensityOf(other.sort().lengthM(), 0));
        count++;
      }
    }
    return count == 0 ? Double.NEGATIVE_INFINITY : sum.value() - Math.log(count);
  }

  private static int caseOf(AssessedReading reading) {
    return 2 * reading.nm() + (reading.forward() ? 1 : 0);
  }

  /** Computed by whoever comes first. */
  private final class Once implements Supplier<Looked> {
    private final List<Looked> held = new ArrayList<>(1);

    @Override
    public synchronized Looked get() {
      if (held.isEmpty()) {
        held.add(look());
      }
      return held.get(0);
    }
  }

  private Looked look() {
    Map<FibreCategory, Sorts> all = new EnumMap<>(FibreCategory.class);
    double[] ratios = new double[ledger.slots()];
    int count = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      Link link = ledger.link(slot);
      double measured = measuredM(slot);
      if (measured > ENOUGH_M && link.lengthM() > ENOUGH_M) {
        ratios[count++] = measured / link.lengthM();
      }
      Sorts sorts = all.computeIfAbsent(link.category(), k -> new Sorts());
      if (link != sorts.last && saysExpected(slot)) {
        sorts.last = link;
        sorts.firstSlot.putIfAbsent(Sort.of(link), slot);
      }
    }
    Map<FibreCategory, List<Other>> others = new EnumMap<>(FibreCategory.class);
    all.forEach((category, sorts) -> others.put(category, sorts.some(this::expected)));
    // With a handful of lengths their ratio is as likely that of the fibre that is asked about.
    double ratio = count < 8 ? 1.005 : OrderStats.median(Arrays.copyOf(ratios, count));
    return new Looked(others, ratio);
  }

  /** The links of a category that differ, in the order handed in. */
  private static final class Sorts {
    private final Map<Sort, Integer> firstSlot = new LinkedHashMap<>();
    private @Nullable Link last;

    List<Other> some(IntFunction<Map<Integer, Double>> expected) {
      List<Map.Entry<Sort, Integer>> sorts = List.copyOf(firstSlot.entrySet());
      List<Other> some = new ArrayList<>();
      int size = Math.min(sorts.size(), MOST);
      for (int i = 0; i < size; i++) {
        Map.Entry<Sort, Integer> one = sorts.get((int) ((long) i * sorts.size() / size));
        some.add(new Other(one.getKey(), expected.apply(one.getValue())));
      }
      return some;
    }
  }

  private boolean saysExpected(int slot) {
    for (AssessedReading reading : ledger.readings(slot)) {
      if (reading.current() && !Double.isNaN(Exchanged.expected(reading))) {
        return true;
      }
    }
    return false;
  }

  private Map<Integer, Double> expected(int slot) {
    Map<Integer, Double> expected = new HashMap<>();
    for (AssessedReading reading : ledger.readings(slot)) {
      double db = Exchanged.expected(reading);
      if (reading.current() && !Double.isNaN(db)) {
        expected.put(caseOf(reading), db);
      }
    }
    return expected;
  }
}
