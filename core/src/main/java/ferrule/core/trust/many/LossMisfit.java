package ferrule.core.trust.many;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;

/**
 * How far the loss of a fibre lies from what is expected of a link, in standard deviations: at the
 * shortest wavelength read, less the median that all fibres share at that wavelength (a zero that
 * is off says nothing about identity), over the spread expected or the job's own scatter (1.4826
 * times the median absolute deviation), whichever is more.
 */
final class LossMisfit {

  private final LengthProfile profile;
  private final Map<Integer, Common> byNm = new TreeMap<>();

  private record Common(double shiftDb, double scatter) {}

  private static final class Values {
    double[] db = new double[16];
    double[] spread = new double[16];
    int size;

    void add(double value, double sd) {
      if (size == db.length) {
        db = Arrays.copyOf(db, size * 2);
        spread = Arrays.copyOf(spread, size * 2);
      }
      db[size] = value;
      spread[size++] = sd;
    }

    Common common() {
      double shift = Ranks.median(db.clone(), size);
      double[] sizes = new double[size];
      for (int i = 0; i < size; i++) {
        sizes[i] = Math.abs(db[i] - shift) / spread[i];
      }
      return new Common(shift, Math.max(1, OrderStats.SD_OVER_MAD * Ranks.median(sizes, size)));
    }
  }

  LossMisfit(LengthProfile profile) {
    this.profile = profile;
    Map<Integer, Values> gathered = new TreeMap<>();
    for (int slot = 0; slot < profile.slots(); slot++) {
      int link = profile.linkOf(slot);
      double beyond = profile.lossBeyondDb(slot, link);
      if (!Double.isNaN(beyond)) {
        gathered
            .computeIfAbsent(profile.lossNm(slot), k -> new Values())
            .add(beyond, profile.lossSpreadDb(link));
      }
    }
    gathered.forEach((nm, values) -> byNm.put(nm, values.common()));
  }

  /** Standard deviations, positive if more was lost than expected; NaN if it cannot be said. */
  double of(int slot, int link) {
    double beyond = profile.lossBeyondDb(slot, link);
    Common common = Double.isNaN(beyond) ? null : byNm.get(profile.lossNm(slot));
    return common == null
        ? Double.NaN
        : (beyond - common.shiftDb()) / (common.scatter() * profile.lossSpreadDb(link));
  }

  /** The same in dB. */
  double db(int slot, int link) {
    Common common = byNm.get(profile.lossNm(slot));
    return common == null ? Double.NaN : profile.lossBeyondDb(slot, link) - common.shiftDb();
  }
}
