package ferrule.core.trust.joint;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Link;
import ferrule.core.zero.Zero;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * The model of methods.md, section 8, written out as one dense Gaussian model and solved by another
 * library in observation space: {@code y = Z u + e}, {@code u ~ N(0, G)}, {@code e ~ N(0, R)},
 * {@code Sigma = Z G Z' + R}, {@code u^ = G Z' Sigma^-1 y}, {@code var(u^ - u) = G - G Z' Sigma^-1
 * Z G} (Robinson 1991, "That BLUP is a good thing"). An effect of unknown size added to it has the
 * generalised least squares estimate {@code x'Sigma^-1 y / x'Sigma^-1 x}.
 *
 * <p>It shares with the joint estimate the readings, the covariance of honest readings and the
 * pattern, which are given; neither the grouping, nor the blocks, nor the information.
 */
final class DenseMixedModel {

  private final Frame frame;
  private final Scatter scatter;
  private final boolean alikeCables;
  private final Map<String, Integer> part = new LinkedHashMap<>();
  private final List<Double> partVariance = new ArrayList<>();
  private final int levels;
  private final RealMatrix design;
  private final RealMatrix prior;
  private final RealMatrix inverse;
  private final RealVector excess;
  private final RealVector weighted;

  /** The model of some readings; cables with alike connections or not. */
  DenseMixedModel(Frame frame, Scatter scatter, boolean alikeCables) {
    this.frame = frame;
    this.scatter = scatter;
    this.alikeCables = alikeCables;
    this.levels = frame.levels.size();
    List<Map<Integer, Double>> rows = new ArrayList<>();
    for (int r = 0; r < frame.readings(); r++) {
      rows.add(row(r));
    }
    int n = frame.readings();
    int width = levels + part.size();
    this.design = new Array2DRowRealMatrix(n, width);
    for (int r = 0; r < n; r++) {
      for (Map.Entry<Integer, Double> entry : rows.get(r).entrySet()) {
        design.setEntry(r, entry.getKey(), entry.getValue());
      }
    }
    this.prior = new Array2DRowRealMatrix(width, width);
    for (int l = 0; l < levels; l++) {
      for (int k = 0; k < levels; k++) {
        prior.setEntry(l, k, levelCovariance(frame.levels.get(l), frame.levels.get(k)));
      }
    }
    for (int p = 0; p < part.size(); p++) {
      prior.setEntry(levels + p, levels + p, partVariance.get(p));
    }
    RealMatrix sigma = design.multiply(prior).multiplyTransposed(design).add(residualCovariance());
    this.inverse = new CholeskyDecomposition(sigma, 1e-12, 1e-14).getSolver().getInverse();
    this.excess = new ArrayRealVector(frame.excess);
    this.weighted = inverse.operate(excess);
  }

  private double levelCovariance(Frame.Level one, Frame.Level two) {
    if (one.zero() != two.zero()) {
      return 0;
    }
    Zero zero = frame.zeros.get(one.zero());
    int pairs =
        switch (zero.method()) {
          case ONE_CORD -> 0;
          case TWO_CORD -> 1;
          case THREE_CORD -> 2;
        };
    boolean sameWay = one.level().direction() == two.level().direction();
    boolean sameNm = one.level().wavelength().equals(two.level().wavelength());
    return 0.012 * 0.012
        + (sameWay ? 0.014 * 0.014 + pairs * 0.03 * 0.03 : 0)
        + (sameNm ? 0.006 * 0.006 : 0)
        + (sameWay && sameNm ? 0.008 * 0.008 : 0);
  }

  private void add(Map<Integer, Double> row, String name, double sd, double value) {
    Integer at = part.get(name);
    if (at == null) {
      at = part.size();
      part.put(name, at);
      partVariance.add(sd * sd);
    }
    row.merge(levels + at, value, Double::sum);
  }

  private Map<Integer, Double> row(int r) {
    Map<Integer, Double> row = new HashMap<>();
    int i = frame.fibreOf[r];
    Link link = frame.linkOf(i);
    FibreCategory category = link.category();
    int nm = frame.reading[r].nm();
    double km = link.lengthM() / 1000;
    double pattern = frame.pattern(i, r);
    boolean singleMode = category == FibreCategory.OS2;
    row.put(frame.levelOf[r], 1.0);
    add(row, category + " connections", 0.12, pattern);
    add(row, category + " at " + nm, 0.015, 1);
    add(row, category + " glass " + nm, singleMode ? 0.02 : nm == 850 ? 0.15 : 0.10, km);
    if (link.connections() > 0) {
      add(row, category + " inside", 0.08, link.connections() * pattern);
      add(row, category + " inside at " + nm, 0.02, link.connections());
    }
    if (link.splices() > 0) {
      add(row, category + " splices", 0.03, link.splices() * pattern);
      add(row, category + " splices at " + nm, 0.008, link.splices());
    }
    add(row, "A-B against B-A", 0.008, frame.reading[r].forward() ? 0.5 : -0.5);
    for (String place : Set.of(link.a().place(), link.b().place())) {
      if (fibresAt(place) >= Frame.ENOUGH_FIBRES) {
        add(row, "place " + place, 0.008, pattern);
      }
    }
    if (cables(category) > 1) {
      String cable = cable(link);
      add(row, cable, alikeCables ? 0.004 : cableSd(cable), pattern);
      add(row, cable + " at " + nm, 0.010, 1);
      add(row, cable + " glass " + nm, singleMode ? 0.012 : nm == 850 ? 0.09 : 0.04, km);
    }
    return row;
  }

  private int fibresAt(String place) {
    int count = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      Link link = frame.linkOf(i);
      count += link.a().place().equals(place) || link.b().place().equals(place) ? 1 : 0;
    }
    return count;
  }

  private static String cable(Link link) {
    return link.category() + " from " + link.a().place() + " to " + link.b().place();
  }

  private int cables(FibreCategory category) {
    Set<String> names = new HashSet<>();
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.linkOf(i).category() == category) {
        names.add(cable(frame.linkOf(i)));
      }
    }
    return names.size();
  }

  private double cableSd(String cable) {
    double variance = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      Link link = frame.linkOf(i);
      if (cable(link).equals(cable)) {
        double inside = 0.03 * link.connections();
        double spliced = 0.015 * link.splices();
        variance = Math.max(variance, 0.006 * 0.006 + inside * inside + spliced * spliced);
      }
    }
    return Math.sqrt(variance);
  }

  private RealMatrix residualCovariance() {
    int n = frame.readings();
    RealMatrix covariance = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < frame.fibres(); i += frame.together[i]) {
      int m = frame.together[i];
      RealMatrix whole = new Array2DRowRealMatrix(scatter.covariance(i));
      Arrays.fill(frame.together, i, i + m, 1);
      RealMatrix alone = new Array2DRowRealMatrix(scatter.covariance(i));
      Arrays.fill(frame.together, i, i + m, m);
      RealMatrix linked = whole.subtract(alone);
      RealMatrix own = withNormalPart(i, alone);
      double square = frame.scale[i] * frame.scale[i];
      int d = own.getRowDimension();
      for (int one = 0; one < m; one++) {
        for (int two = 0; two < m; two++) {
          for (int j = 0; j < d; j++) {
            for (int k = 0; k < d; k++) {
              double value = linked.getEntry(j, k) + (one == two ? own.getEntry(j, k) : 0);
              covariance.setEntry(
                  frame.start[i + one] + j, frame.start[i + two] + k, square * value);
            }
          }
        }
      }
    }
    return covariance;
  }

  /**
   * A fibre's part has the variance of its law, whatever the covariance gives it: {@code V + a
   * a'(s^2 - 1/(a'V^-1 a))}.
   */
  private RealMatrix withNormalPart(int fibre, RealMatrix v) {
    RealVector a = new ArrayRealVector(scatter.algebra(fibre).pattern);
    double part = 1 / a.dotProduct(new LUDecomposition(v).getSolver().solve(a));
    double sd = scatter.partSdDb(frame.families.get(frame.family[fibre]));
    return v.add(a.outerProduct(a).scalarMultiply(sd * sd - part));
  }

  /** Estimates of levels, then parts, dB. */
  double[] estimate() {
    return prior.operate(design.transpose().operate(weighted)).toArray();
  }

  /** Covariance of estimates less true values, dB². */
  double[][] covariance() {
    RealMatrix gz = prior.multiplyTransposed(design);
    return prior.subtract(gz.multiply(inverse).multiplyTransposed(gz)).getData();
  }

  /** What each part adds to a reading. */
  double[] row(int reading, boolean levelsToo) {
    double[] row = design.getRow(reading);
    if (!levelsToo) {
      Arrays.fill(row, 0, levels, 0);
    }
    return row;
  }

  /** Size of an effect and its standard deviation, by generalised least squares, dB. */
  double[] effect(Effect effect, double priorPrecision) {
    double[] x = new double[frame.readings()];
    for (int r = 0; r < x.length; r++) {
      x[r] = effect.at(frame, frame.fibreOf[r], r);
    }
    RealVector column = new ArrayRealVector(x);
    double information = column.dotProduct(inverse.operate(column)) + priorPrecision;
    return new double[] {column.dotProduct(weighted) / information, 1 / Math.sqrt(information)};
  }

  /** Number of parts beside the levels. */
  int parts() {
    return part.size();
  }
}
