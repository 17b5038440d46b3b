package ferrule.core.trust.joint;

import ferrule.core.trust.AssessedReading;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * What fibres tell that were read again in the same case under another zero.
 *
 * <p>The old reading less the new one holds neither the fibre's own part nor glass, cable or panel:
 * only two zeros and two matings, and the effect in question where it touches one of the two
 * readings and not the other. So it tells a zero from what stays with the fibre, whatever else the
 * estimate takes for true. Only the earlier readings that a later one replaced are at stake; those
 * under the same zero tell nothing here.
 */
final class ReadTwice {

  /** Pairs that are weighed for one pair of effects. */
  private static final int MOST = 40;

  /**
   * A difference this many standard deviations beyond either cause says no more than one at that
   * bound: a fibre may have been cleaned in between.
   */
  private static final double WILDEST = 2.5;

  private final JointFit fit;
  private final Frame frame;
  private final List<Pair> pairs = new ArrayList<>();

  private record Pair(int fibre, int now, Extra old, double differenceDb) {}

  ReadTwice(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
    Map<ZeroLevel, Integer> levelAt = new IdentityHashMap<>();
    frame.levels.forEach(level -> levelAt.put(level.level(), level.index()));
    for (int i = 0; i < frame.fibres(); i++) {
      List<AssessedReading> readings = frame.ledger.readings(frame.slot[i]);
      if (readings.size() == frame.start[i + 1] - frame.start[i]) {
        continue;
      }
      for (AssessedReading old : readings) {
        Integer level = old.level().map(levelAt::get).orElse(null);
        if (!old.current() && old.hasLoss() && !old.contradictsZero() && level != null) {
          add(i, old, level);
        }
      }
    }
  }

  private void add(int fibre, AssessedReading old, int level) {
    for (int r = frame.start[fibre]; r < frame.start[fibre + 1]; r++) {
      if (frame.reading[r].sameCaseAs(old) && frame.zeroOf(r) != frame.levels.get(level).zero()) {
        double seconds = old.reading().measuredAt().getEpochSecond() - (double) frame.firstSecond;
        Extra extra = new Extra(fibre, r, old.forward(), level, seconds);
        // Methods take out different connections: what either expects goes off first.
        double expected = old.allowance().map(a -> a.expectedDb()).orElse(Double.NaN);
        double difference = old.lossDb() - expected - frame.excess[r];
        if (Double.isFinite(difference)) {
          pairs.add(new Pair(fibre, r, extra, difference));
        }
      }
    }
  }

  private double apart(Effect effect, double sizeDb, Pair pair) {
    return sizeDb * (pair.old().of(effect, frame) - effect.at(frame, pair.fibre(), pair.now()));
  }

  /**
   * Logarithm of the likelihood ratio of one cause against another; 0 if nothing was read twice.
   *
   * @param oneDb size of the first, dB
   * @param twoDb size of the second, dB
   */
  double logRatio(Effect one, double oneDb, Effect two, double twoDb) {
    List<Pair> telling =
        pairs.stream()
            .filter(p -> apart(one, oneDb, p) != apart(two, twoDb, p))
            .limit(MOST)
            .toList();
    int n = telling.size();
    if (n == 0) {
      return 0;
    }
    DMatrixRMaj v = new DMatrixRMaj(n, n);
    DMatrixRMaj off = new DMatrixRMaj(n, 1);
    DMatrixRMaj d = new DMatrixRMaj(n, 1);
    for (int i = 0; i < n; i++) {
      Pair pair = telling.get(i);
      for (int j = 0; j <= i; j++) {
        double covariance = covariance(pair, telling.get(j));
        v.set(i, j, covariance);
        v.set(j, i, covariance);
      }
      double first = apart(one, oneDb, pair);
      double second = apart(two, twoDb, pair);
      double most = WILDEST * Math.sqrt(v.get(i, i)) + Math.abs(first - second) / 2;
      double beyond = pair.differenceDb() - (first + second) / 2;
      off.set(i, 0, Math.max(-most, Math.min(most, beyond)));
      d.set(i, 0, first - second);
    }
    DMatrixRMaj x = new DMatrixRMaj(n, 1);
    return CommonOps_DDRM.solve(v, off, x) ? CommonOps_DDRM.dot(d, x) : 0;
  }

  /** Of two differences: honest zeros they share, and matings of one fibre they share. */
  private double covariance(Pair one, Pair two) {
    boolean old = one.old().zero(frame) == two.old().zero(frame);
    boolean now = frame.zeroOf(one.now()) == frame.zeroOf(two.now());
    int shared = (old ? 1 : 0) + (now ? 1 : 0);
    double sum = shared * Extra.freshCovariance(frame, one.old(), two.old());
    if (one.fibre() == two.fibre()) {
      Family.Case a = one.old().caseIn(frame);
      Family.Case b = two.old().caseIn(frame);
      sum +=
          shared
              * (fit.scatter.covariance(one.fibre(), a, b, true)
                  - fit.scatter.covariance(one.fibre(), a, b, false));
    }
    return sum;
  }
}
