package ferrule.core.trust.joint;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * What the estimate foretells of readings that are not in it, and how an effect would change that.
 *
 * <p>A reading {@code y} of a fibre whose readings in the estimate leave residuals {@code r} with
 * covariance {@code S} is foretold, given the estimated parts {@code theta}, as {@code h'theta +
 * w'r}, {@code w = S^-1 k}, {@code k} its covariance with them (the fibre's own part is the same;
 * the mating is a new one). The parts enter it by {@code q = h - X'w}, so its variance is {@code s
 * - k'w + q'Cq}, {@code C} the posterior covariance. These are the equations of best linear
 * unbiased prediction (Henderson 1975).
 *
 * <p>An effect with regressor {@code x}, had it been taken in at a size of 1 dB, would have moved
 * the parts by {@code -Cg} ({@code g = X'Jx}), and what is foretold by {@code x_new - w'x - q'Cg}.
 */
final class Outlook {

  private final JointFit fit;
  private final Frame frame;
  private final JointFit.Touch touch;
  private final Map<Integer, Column> ofLevel = new HashMap<>();

  /** A column of the posterior covariance. */
  private record Column(double[] levels, double[] parts) {}

  Outlook(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
    this.touch = fit.touch();
  }

  Frame frame() {
    return frame;
  }

  /**
   * What the estimate says of one reading.
   *
   * @param extra which
   * @param meanDb what it is foretold to read, dB
   * @param own variance of its own, dB²: scatter not shown by the fibre's other readings
   */
  record Foretold(
      Extra extra,
      double meanDb,
      double own,
      int[] levels,
      double[] byLevel,
      int[] parts,
      double[] byPart,
      double[] with,
      double[] weights) {}

  /** Foretells a reading. */
  Foretold of(Extra extra) {
    int i = extra.fibre();
    int begin = frame.start[i];
    int d = frame.start[i + 1] - begin;
    double[] k = new double[d];
    Family.Case own = extra.caseIn(frame);
    Family family = frame.families.get(frame.family[i]);
    for (int j = 0; j < d; j++) {
      k[j] = fit.scatter.covariance(i, own, family.cases().get(frame.caseOf[begin + j]), false);
    }
    double[] w = weights(i, k);
    double left = fit.scatter.covariance(i, own, own, true);
    for (int j = 0; j < d; j++) {
      left -= w[j] * k[j];
    }
    double mean = frame.reading[extra.twin()].allowance().orElseThrow().expectedDb();
    int[] levels = new int[d + 1];
    double[] byLevel = new double[d + 1];
    for (int j = 0; j < d; j++) {
      mean += w[j] * fit.residual[begin + j];
      levels[j] = frame.levelOf[begin + j];
      byLevel[j] = -w[j];
    }
    int used = d;
    if (extra.level() >= 0) {
      levels[used] = extra.level();
      byLevel[used++] = 1;
      mean += fit.levels[extra.level()];
    }
    touch.of(i);
    int effects = fit.effects.size();
    int[] parts = new int[touch.size + effects];
    double[] byPart = new double[parts.length];
    int size = 0;
    int twin = extra.twin() - begin;
    boolean turned = frame.levels.get(frame.levelOf[extra.twin()]).forward() != extra.forward();
    for (int t = 0; t < touch.size; t++) {
      int column = touch.column[t];
      if (column >= fit.effectAt(0)) {
        continue;
      }
      double h = touch.x[t][twin] * (turned && column == fit.biasAt() ? -1 : 1);
      mean += h * fit.parts[column];
      parts[size] = column;
      byPart[size++] = h - dot(w, touch.x[t]);
    }
    for (int e = 0; e < effects; e++) {
      double h = extra.of(fit.effects.get(e), frame);
      double old = 0;
      for (int j = 0; j < d; j++) {
        old += w[j] * fit.effects.get(e).at(frame, i, begin + j);
      }
      mean += h * fit.parts[fit.effectAt(e)];
      if (h != 0 || old != 0) {
        parts[size] = fit.effectAt(e);
        byPart[size++] = h - old;
      }
    }
    return new Foretold(
        extra,
        mean,
        Math.max(left, 0),
        Arrays.copyOf(levels, used),
        Arrays.copyOf(byLevel, used),
        Arrays.copyOf(parts, size),
        Arrays.copyOf(byPart, size),
        k,
        w);
  }

  private static double dot(double[] one, double[] two) {
    double sum = 0;
    for (int j = 0; j < one.length; j++) {
      sum += one[j] * two[j];
    }
    return sum;
  }

  private double[] weights(int i, double[] k) {
    int d = k.length;
    DMatrixRMaj s = new DMatrixRMaj(fit.scatter.covariance(i));
    CommonOps_DDRM.scale(frame.scale[i] * frame.scale[i], s);
    DMatrixRMaj w = new DMatrixRMaj(d, 1);
    if (!CommonOps_DDRM.solve(s, DMatrixRMaj.wrap(d, 1, k), w)) {
      throw new IllegalStateException("A covariance with a floor cannot be singular");
    }
    return w.data;
  }

  /** Covariance of what two readings will be, dB². */
  double covariance(Foretold one, Foretold two) {
    double sum = shared(one, two);
    boolean same = one.extra().equals(two.extra());
    if (one.extra().fibre() == two.extra().fibre()) {
      sum +=
          same
              ? one.own()
              : fit.scatter.covariance(
                      one.extra().fibre(),
                      one.extra().caseIn(frame),
                      two.extra().caseIn(frame),
                      one.extra().level() < 0 == two.extra().level() < 0
                          && one.extra().zero(frame) == two.extra().zero(frame))
                  - dot(one.weights(), two.with());
    }
    if (one.extra().level() < 0 && two.extra().level() < 0) {
      sum += Extra.freshCovariance(frame, one.extra(), two.extra());
    }
    return sum;
  }

  private double shared(Foretold one, Foretold two) {
    double sum = 0;
    for (int i = 0; i < one.levels().length; i++) {
      Column column = column(one.levels()[i]);
      double inner = 0;
      for (int j = 0; j < two.levels().length; j++) {
        inner += column.levels()[two.levels()[j]] * two.byLevel()[j];
      }
      for (int j = 0; j < two.parts().length; j++) {
        inner += column.parts()[two.parts()[j]] * two.byPart()[j];
      }
      sum += one.byLevel()[i] * inner;
    }
    for (int j = 0; j < two.levels().length; j++) {
      Column column = column(two.levels()[j]);
      double inner = 0;
      for (int i = 0; i < one.parts().length; i++) {
        inner += column.parts()[one.parts()[i]] * one.byPart()[i];
      }
      sum += two.byLevel()[j] * inner;
    }
    for (int i = 0; i < one.parts().length; i++) {
      for (int j = 0; j < two.parts().length; j++) {
        sum +=
            one.byPart()[i]
                * two.byPart()[j]
                * fit.covarianceOfParts(one.parts()[i], two.parts()[j]);
      }
    }
    return sum;
  }

  private Column column(int level) {
    return ofLevel.computeIfAbsent(
        level,
        l -> {
          double[] unit = new double[frame.levels.size()];
          unit[l] = 1;
          return times(unit, new double[fit.borderSize()]);
        });
  }

  private Column times(double[] byLevel, double[] byPart) {
    Column out = new Column(new double[byLevel.length], new double[byPart.length]);
    fit.covarianceTimes(byLevel, byPart, out.levels(), out.parts());
    return out;
  }

  /**
   * How an effect bears on readings.
   *
   * @param effect which
   * @param sizeDb its size as the data would have it if it were the cause, dB
   * @param column by how much the parts fall for each dB of it
   * @param taken whether it is in the estimate
   */
  record Bearing(Effect effect, double sizeDb, double[] levels, double[] parts, boolean taken) {}

  /** An effect that the estimate has taken in, at its estimated size. */
  Bearing taken(Effect effect) {
    int at = fit.effectAt(fit.effects.indexOf(effect));
    double[] unit = new double[fit.borderSize()];
    unit[at] = 1;
    Column c = times(new double[frame.levels.size()], unit);
    double variance = c.parts()[at];
    scale(c.levels(), -1 / variance);
    scale(c.parts(), -1 / variance);
    return new Bearing(effect, fit.parts[at], c.levels(), c.parts(), true);
  }

  /**
   * An effect that is not in the estimate, in place of one that is: sized as the data would have it
   * then. Empty if the data would have nothing of it, other parts explaining it.
   */
  Optional<Bearing> instead(Effect effect, Bearing of) {
    Shared shared = shared(effect);
    Column cg = times(shared.levels, shared.parts);
    int at = fit.effectAt(fit.effects.indexOf(of.effect()));
    // Without the other effect the covariance is C - cc'/v, c its column and v its variance.
    double along = -cg.parts()[at] / fit.varianceOfPart(at);
    double explained = inner(shared.levels, cg.levels()) + inner(shared.parts, cg.parts());
    double variance = fit.varianceOfPart(at);
    double information = shared.information - explained + along * along * variance;
    double score = shared.score - along * of.sizeDb();
    if (information < LEAST_INFORMATION) {
      return Optional.empty();
    }
    for (int l = 0; l < cg.levels().length; l++) {
      cg.levels()[l] -= along * variance * of.levels()[l];
    }
    for (int p = 0; p < cg.parts().length; p++) {
      cg.parts()[p] -= along * variance * of.parts()[p];
    }
    return Optional.of(new Bearing(effect, score / information, cg.levels(), cg.parts(), false));
  }

  /** An effect that is not in the estimate, beside what is, at a given size. */
  Bearing beside(Effect effect, double sizeDb) {
    Shared shared = shared(effect);
    Column cg = times(shared.levels, shared.parts);
    return new Bearing(effect, sizeDb, cg.levels(), cg.parts(), false);
  }

  /** An effect must keep this much information beside all parts, 1/dB²: 0.5 dB of spread. */
  private static final double LEAST_INFORMATION = 4;

  /** What an effect has to do with the estimated parts. */
  private static final class Shared {
    final double[] levels;
    final double[] parts;
    double information = 0;
    double score = 0;

    Shared(int levels, int parts) {
      this.levels = new double[levels];
      this.parts = new double[parts];
    }
  }

  private Shared shared(Effect effect) {
    Shared shared = new Shared(frame.levels.size(), fit.borderSize());
    double[] x = new double[Family.MOST_CASES];
    for (int i = 0; i < frame.fibres(); i++) {
      int begin = frame.start[i];
      int d = frame.start[i + 1] - begin;
      boolean any = false;
      for (int j = 0; j < d; j++) {
        x[j] = effect.at(frame, i, begin + j);
        any |= x[j] != 0;
      }
      if (any) {
        add(shared, i, x);
      }
    }
    return shared;
  }

  private void add(Shared shared, int i, double[] x) {
    int begin = frame.start[i];
    int d = frame.start[i + 1] - begin;
    double per = 1 / (frame.scale[i] * frame.scale[i]);
    double[] information = fit.information(i);
    touch.of(i);
    for (int j = 0; j < d; j++) {
      double weighted = 0;
      for (int k = 0; k < d; k++) {
        weighted += per * information[j * d + k] * x[k];
      }
      shared.information += weighted * x[j];
      shared.score += x[j] * fit.score[begin + j];
      shared.levels[frame.levelOf[begin + j]] += weighted;
      for (int t = 0; t < touch.size; t++) {
        shared.parts[touch.column[t]] += weighted * touch.x[t][j];
      }
    }
  }

  private static double inner(double[] one, double[] two) {
    double sum = 0;
    for (int j = 0; j < one.length; j++) {
      sum += one[j] * two[j];
    }
    return sum;
  }

  private static void scale(double[] values, double by) {
    for (int j = 0; j < values.length; j++) {
      values[j] *= by;
    }
  }

  /** By how much an effect at its size changes what a reading is foretold to be, dB. */
  double change(Bearing bearing, Foretold reading) {
    double change = 0;
    for (int j = 0; j < reading.levels().length; j++) {
      change -= reading.byLevel()[j] * bearing.levels()[reading.levels()[j]];
    }
    for (int j = 0; j < reading.parts().length; j++) {
      change -= reading.byPart()[j] * bearing.parts()[reading.parts()[j]];
    }
    if (!bearing.taken()) {
      int i = reading.extra().fibre();
      change += reading.extra().of(bearing.effect(), frame);
      for (int j = 0; j < reading.weights().length; j++) {
        change -= reading.weights()[j] * bearing.effect().at(frame, i, frame.start[i] + j);
      }
    }
    return change * bearing.sizeDb();
  }
}
