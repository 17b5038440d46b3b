package ferrule.core.trust.cause;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.joint.FibreExcess;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

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
    double[] found =
        ledger.readings(slot).stream()
            .filter(r -> r.current() && r.reading().hasLength())
            .mapToDouble(r -> r.reading().lengthM())
            .sorted()
            .toArray();
    return found.length == 0 ? Double.NaN : found[found.length / 2];
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
    Map<FibreCategory, List<Other>> all = new EnumMap<>(FibreCategory.class);
    Map<FibreCategory, Set<Sort>> known = new EnumMap<>(FibreCategory.class);
    double[] ratios = new double[ledger.slots()];
    int count = 0;
    for (int slot = 0; slot < ledger.slots(); slot++) {
      Link link = ledger.link(slot);
      double measured = measuredM(slot);
      if (measured > ENOUGH_M && link.lengthM() > ENOUGH_M) {
        ratios[count++] = measured / link.lengthM();
      }
      Sort sort = Sort.of(link);
      if (known.computeIfAbsent(link.category(), k -> new HashSet<>()).contains(sort)) {
        continue;
      }
      Map<Integer, Double> expected = new HashMap<>();
      for (AssessedReading reading : ledger.readings(slot)) {
        double db = Exchanged.expected(reading);
        if (reading.current() && !Double.isNaN(db)) {
          expected.put(caseOf(reading), db);
        }
      }
      if (!expected.isEmpty()) {
        known.get(link.category()).add(sort);
        all.computeIfAbsent(link.category(), k -> new ArrayList<>()).add(new Other(sort, expected));
      }
    }
    all.replaceAll((category, others) -> thinned(others));
    double[] sorted = Arrays.copyOf(ratios, count);
    Arrays.sort(sorted);
    // With a handful of lengths their ratio is as likely that of the fibre that is asked about.
    return new Looked(all, count < 8 ? 1.005 : sorted[count / 2]);
  }

  private static List<Other> thinned(List<Other> others) {
    if (others.size() <= MOST) {
      return others;
    }
    List<Other> some = new ArrayList<>();
    for (int i = 0; i < MOST; i++) {
      some.add(others.get((int) ((long) i * others.size() / MOST)));
    }
    return some;
  }
}
