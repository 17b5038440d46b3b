package ferrule.core.trust.joint;

import ferrule.core.plant.Direction;
import ferrule.core.trust.Handling;
import ferrule.core.trust.SeparatingReading;
import ferrule.core.trust.Separation;
import ferrule.core.trust.joint.Outlook.Bearing;
import ferrule.core.trust.joint.Outlook.Foretold;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * The few readings that best tell two causes apart, chosen one after another.
 *
 * <p>With {@code d} the differences between what either cause foretells and {@code V} the
 * covariance of what is foretold, the logarithm of the likelihood ratio to be expected for
 * whichever cause is true is {@code d'V^-1 d/2}, the Kullback-Leibler distance of two normal laws
 * of one covariance. The reading that adds most to it for each minute of work is taken, until
 * {@link Separation#ENOUGH} is reached. This is T-optimality (Atkinson and Fedorov 1975, "Optimal
 * design: experiments for discriminating between several models", Biometrika 62) with the posterior
 * in place of fixed parameters (Chaloner and Verdinelli 1995, "Bayesian experimental design: a
 * review", Statistical Science 10), sought greedily.
 */
final class Design {

  /** Further readings of a link that is connected anyway: minutes, judgement. */
  private static final double SAME_LINK_MINUTES = 1;

  /** One link alone may be spoilt by dirt. */
  private static final int FEWEST_LINKS = 2;

  /** A reading that adds less than this is not worth asking for. */
  private static final double LEAST_GAIN = 0.25;

  private final Outlook outlook;
  private final Bearing first;
  private final Bearing second;
  private final List<Foretold> chosen = new ArrayList<>();
  private final List<Double> minutes = new ArrayList<>();
  private final Map<Extra, Double> apart = new HashMap<>();
  private double reached = 0;

  Design(Outlook outlook, Bearing first, Bearing second) {
    this.outlook = outlook;
    this.first = first;
    this.second = second;
  }

  /** By how much the second cause foretells more than the first, dB. */
  private double apart(Foretold reading) {
    return apart.computeIfAbsent(
        reading.extra(), e -> outlook.change(second, reading) - outlook.change(first, reading));
  }

  /** Chooses among candidates. */
  Separation among(List<Extra> candidates, String firstName, String secondName) {
    List<Foretold> left = new ArrayList<>();
    for (Extra candidate : candidates) {
      Foretold reading = outlook.of(candidate);
      if (apart(reading) != 0) {
        left.add(reading);
      }
    }
    while (chosen.size() < Separation.MOST_READINGS
        && (reached < Separation.ENOUGH || links() < FEWEST_LINKS)) {
      boolean elsewhere = reached >= Separation.ENOUGH;
      Foretold best = null;
      double most = 0;
      double bestTotal = reached;
      for (Foretold reading : left) {
        if (elsewhere && isConnected(reading.extra())) {
          continue;
        }
        double total = expected(reading);
        double rate = (total - reached) / minutesFor(reading.extra());
        if (total - reached > LEAST_GAIN && rate > most * (1 + 1e-9)) {
          best = reading;
          most = rate;
          bestTotal = total;
        }
      }
      if (best == null) {
        break;
      }
      minutes.add(minutesFor(best.extra()));
      chosen.add(best);
      left.remove(best);
      reached = bestTotal;
    }
    List<SeparatingReading> readings = new ArrayList<>();
    for (int i = 0; i < chosen.size(); i++) {
      readings.add(shown(chosen.get(i), minutes.get(i)));
    }
    return new Separation(firstName, secondName, readings, reached);
  }

  private long links() {
    Frame frame = outlook.frame();
    return chosen.stream().map(c -> frame.linkOf(c.extra().fibre())).distinct().count();
  }

  /** Whether a reading of the same link is chosen. */
  private boolean isConnected(Extra extra) {
    Frame frame = outlook.frame();
    return chosen.stream()
        .anyMatch(c -> frame.linkOf(c.extra().fibre()) == frame.linkOf(extra.fibre()));
  }

  /** Expected log ratio of those chosen and one more. */
  private double expected(Foretold more) {
    List<Foretold> all = new ArrayList<>(chosen);
    all.add(more);
    int n = all.size();
    DMatrixRMaj v = new DMatrixRMaj(n, n);
    DMatrixRMaj d = new DMatrixRMaj(n, 1);
    for (int i = 0; i < n; i++) {
      d.set(i, 0, apart(all.get(i)));
      for (int j = 0; j <= i; j++) {
        double covariance = outlook.covariance(all.get(i), all.get(j));
        v.set(i, j, covariance);
        v.set(j, i, covariance);
      }
    }
    DMatrixRMaj x = new DMatrixRMaj(n, 1);
    return CommonOps_DDRM.solve(v, d, x) ? CommonOps_DDRM.dot(d, x) / 2 : 0;
  }

  /** Minutes beside those chosen already: a zero is set or verified once, a link connected once. */
  private double minutesFor(Extra extra) {
    Frame frame = outlook.frame();
    boolean zero = false;
    boolean link = false;
    for (Foretold reading : chosen) {
      boolean same = reading.extra().zero(frame) == extra.zero(frame);
      zero |= same;
      link |= same && frame.linkOf(reading.extra().fibre()) == frame.linkOf(extra.fibre());
    }
    double own = link ? SAME_LINK_MINUTES : Handling.RETEST_LINK;
    return zero ? own : own + (extra.level() < 0 ? Handling.RE_ZERO : Handling.VERIFY);
  }

  private SeparatingReading shown(Foretold reading, double takes) {
    Frame frame = outlook.frame();
    Extra extra = reading.extra();
    // What is foretold holds the first cause if it is in the estimate, and neither if it is not.
    double neither = reading.meanDb() - (first.taken() ? outlook.change(first, reading) : 0);
    return new SeparatingReading(
        Optional.of(frame.ledger.fibre(frame.slot[extra.fibre()])),
        List.of(),
        extra.forward() ? Direction.A_TO_B : Direction.B_TO_A,
        extra.nm(frame),
        extra.level() < 0 ? "" : frame.zeros.get(extra.zero(frame)).id(),
        neither + outlook.change(first, reading),
        neither + outlook.change(second, reading),
        Math.sqrt(outlook.covariance(reading, reading)),
        takes);
  }
}
