package ferrule.core.trust.joint;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How honest readings of one fibre scatter together, estimated from the job itself.
 *
 * <p>The covariance of two readings of a fibre is {@code F} between wavelengths, shared by both
 * directions, plus {@code G} within one direction (one mating of the cords). {@code F} and {@code
 * G} come from robust covariances of half-sums and half-differences of the two directions; few
 * fibres lean on the usual values (fibre part 0.11 dB, mating 0.05 dB, meter 0.01 dB; the first two
 * from the simulated practice of duplex links, the last assumed).
 */
final class Scatter {

  private static final double USUAL_PART_DB = 0.11;
  private static final double USUAL_MATING_DB = 0.05;
  private static final double USUAL_METER_DB = 0.012;

  /** No reading is taken to scatter less than this: display step and meter. */
  private static final double LEAST_DB = 0.004;

  private static final double PRIOR_WEIGHT = 8;
  private static final int ENOUGH = 12;

  private final Frame frame;
  private final double[][][] shared;
  private final double[][][] within;
  private final SkewLaw[] law;
  private final Map<Long, CaseAlgebra> algebra = new HashMap<>();

  private Scatter(Frame frame) {
    this.frame = frame;
    int families = frame.families.size();
    this.shared = new double[families][][];
    this.within = new double[families][][];
    this.law = new SkewLaw[families];
  }

  /**
   * Estimates scatter from residuals.
   *
   * @param residual dB, by reading
   */
  static Scatter of(Frame frame, double[] residual) {
    Scatter scatter = new Scatter(frame);
    double[] centred = scatter.centred(residual);
    for (Family family : frame.families) {
      scatter.estimate(family, centred);
      scatter.law[family.index()] = SkewLaw.normal(scatter.partSd(family));
    }
    scatter.fitLaws(centred);
    return scatter;
  }

  private double partSd(Family family) {
    double a = family.patternOf(0);
    return Math.sqrt((shared[family.index()][0][0] + 0.5 * within[family.index()][0][0]) / (a * a));
  }

  /** Residuals less the median of their level, or of their case where the level has few. */
  private double[] centred(double[] residual) {
    int levels = frame.levels.size();
    int families = frame.families.size();
    int pooled = families * levels;
    int[] counts = new int[pooled];
    for (int i = 0; i < frame.fibres(); i++) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        counts[frame.family[i] * levels + frame.levelOf[r]]++;
      }
    }
    int groups = pooled + families * Family.MOST_CASES;
    int[] groupOf = new int[frame.readings()];
    int[] begin = new int[groups + 1];
    for (int i = 0; i < frame.fibres(); i++) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        int own = frame.family[i] * levels + frame.levelOf[r];
        groupOf[r] =
            counts[own] >= ENOUGH
                ? own
                : pooled + frame.family[i] * Family.MOST_CASES + frame.caseOf[r];
        begin[groupOf[r] + 1]++;
      }
    }
    for (int g = 0; g < groups; g++) {
      begin[g + 1] += begin[g];
    }
    int[] next = begin.clone();
    double[] sorted = new double[residual.length];
    for (int r = 0; r < residual.length; r++) {
      sorted[next[groupOf[r]]++] = residual[r];
    }
    double[] centre = new double[groups];
    for (int g = 0; g < groups; g++) {
      centre[g] = Robust.median(Arrays.copyOfRange(sorted, begin[g], begin[g + 1]));
    }
    double[] centred = new double[residual.length];
    for (int r = 0; r < residual.length; r++) {
      centred[r] = residual[r] - centre[groupOf[r]];
    }
    return centred;
  }

  private void estimate(Family family, double[] centred) {
    int m = family.wavelengths();
    double[][] usualShared = new double[m][m];
    double[][] usualWithin = new double[m][m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k < m; k++) {
        double aa = family.patternOf(j) * family.patternOf(k);
        usualShared[j][k] = USUAL_PART_DB * USUAL_PART_DB * aa;
        usualWithin[j][k] = USUAL_MATING_DB * USUAL_MATING_DB * aa;
      }
      usualShared[j][j] += USUAL_METER_DB * USUAL_METER_DB / 2;
      usualWithin[j][j] += USUAL_METER_DB * USUAL_METER_DB;
    }
    int[][] pairs = directionPairs(family);
    int both = countBoth(family, pairs);
    int f = family.index();
    if (both >= ENOUGH) {
      double[][][] columns = halves(family, pairs, both, centred);
      double[][] sums = lean(cov(family, columns[0]), both, sum(usualShared, usualWithin, 0.5));
      double[][] gaps = lean(cov(family, columns[1]), both, times(usualWithin, 0.5));
      shared[f] = sum(sums, gaps, -1);
      within[f] = times(gaps, 2);
      return;
    }
    int single = countSingle(family);
    if (single >= ENOUGH) {
      double[][] one =
          lean(
              cov(family, singles(family, single, centred)),
              single,
              sum(usualShared, usualWithin, 1));
      shared[f] = times(one, 0.8);
      within[f] = times(one, 0.2);
      return;
    }
    shared[f] = usualShared;
    within[f] = usualWithin;
  }

  private static double[][] sum(double[][] first, double[][] second, double times) {
    int m = second.length;
    double[][] sum = new double[m][m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k < m; k++) {
        sum[j][k] = first[j][k] + times * second[j][k];
      }
    }
    return sum;
  }

  private static double[][] times(double[][] matrix, double times) {
    return sum(new double[matrix.length][matrix.length], matrix, times);
  }

  private static double[][] lean(double[][] found, int n, double[][] usual) {
    int m = usual.length;
    double[][] leant = new double[m][m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k < m; k++) {
        leant[j][k] = (n * found[j][k] + PRIOR_WEIGHT * usual[j][k]) / (n + PRIOR_WEIGHT);
      }
    }
    return leant;
  }

  /** Forward and backward case of each wavelength; -1 where it is not read. */
  private static int[][] directionPairs(Family family) {
    int[][] pairs = new int[family.wavelengths()][2];
    for (int[] pair : pairs) {
      pair[0] = -1;
      pair[1] = -1;
    }
    List<Family.Case> cases = family.cases();
    for (int c = 0; c < cases.size(); c++) {
      pairs[cases.get(c).wavelengthAt()][cases.get(c).forward() ? 0 : 1] = c;
    }
    return pairs;
  }

  private static boolean hasAll(int mask, int[][] pairs, int direction) {
    for (int[] pair : pairs) {
      if (pair[direction] < 0 || (mask & (1 << pair[direction])) == 0) {
        return false;
      }
    }
    return true;
  }

  private int countBoth(Family family, int[][] pairs) {
    int count = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.family[i] == family.index()
          && hasAll(frame.mask[i], pairs, 0)
          && hasAll(frame.mask[i], pairs, 1)) {
        count++;
      }
    }
    return count;
  }

  private int countSingle(Family family) {
    int[][] pairs = directionPairs(family);
    int count = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.family[i] == family.index()
          && (hasAll(frame.mask[i], pairs, 0) || hasAll(frame.mask[i], pairs, 1))) {
        count++;
      }
    }
    return count;
  }

  private double at(int fibre, int caseAt, double[] values) {
    for (int r = frame.start[fibre]; r < frame.start[fibre + 1]; r++) {
      if (frame.caseOf[r] == caseAt) {
        return values[r] / frame.scale[fibre];
      }
    }
    throw new IllegalStateException("A case that the mask holds is missing");
  }

  private double[][][] halves(Family family, int[][] pairs, int count, double[] centred) {
    int m = pairs.length;
    double[][][] columns = new double[2][m][count];
    int at = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.family[i] != family.index()
          || !hasAll(frame.mask[i], pairs, 0)
          || !hasAll(frame.mask[i], pairs, 1)) {
        continue;
      }
      for (int w = 0; w < m; w++) {
        double forward = at(i, pairs[w][0], centred);
        double back = at(i, pairs[w][1], centred);
        columns[0][w][at] = (forward + back) / 2;
        columns[1][w][at] = (forward - back) / 2;
      }
      at++;
    }
    return columns;
  }

  private double[][] singles(Family family, int count, double[] centred) {
    int[][] pairs = directionPairs(family);
    double[][] columns = new double[pairs.length][count];
    int at = 0;
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.family[i] != family.index()) {
        continue;
      }
      int direction =
          hasAll(frame.mask[i], pairs, 0) ? 0 : hasAll(frame.mask[i], pairs, 1) ? 1 : -1;
      if (direction >= 0) {
        for (int w = 0; w < pairs.length; w++) {
          columns[w][at] = at(i, pairs[w][direction], centred);
        }
        at++;
      }
    }
    return columns;
  }

  /**
   * Robust covariance between wavelengths. The fibre's own part makes the wavelengths nearly equal
   * up to the pattern, so the spread of {@code x_k - (a_k/a_0) x_0} is what the robust spread must
   * see: the covariance is taken in those coordinates and turned back.
   */
  private static double[][] cov(Family family, double[][] columns) {
    int m = columns.length;
    double[][] turned = new double[m][];
    double[] least = new double[m];
    turned[0] = columns[0];
    least[0] = LEAST_DB;
    double[] ratio = new double[m];
    for (int k = 1; k < m; k++) {
      ratio[k] = family.patternOf(k) / family.patternOf(0);
      turned[k] = new double[columns[k].length];
      for (int i = 0; i < columns[k].length; i++) {
        turned[k][i] = columns[k][i] - ratio[k] * columns[0][i];
      }
      least[k] = LEAST_DB;
    }
    double[][] c = Robust.covariance(turned, least);
    double[][] back = new double[m][m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k < m; k++) {
        // x_k = t_k + ratio_k t_0 for k > 0; x_0 = t_0
        back[j][k] =
            (j == 0 && k == 0)
                ? c[0][0]
                : j == 0
                    ? c[0][k] + ratio[k] * c[0][0]
                    : k == 0
                        ? c[j][0] + ratio[j] * c[0][0]
                        : c[j][k]
                            + ratio[j] * c[0][k]
                            + ratio[k] * c[j][0]
                            + ratio[j] * ratio[k] * c[0][0];
      }
    }
    return back;
  }

  private void fitLaws(double[] centred) {
    double[][] parts = new double[frame.families.size()][];
    int[] counts = new int[parts.length];
    for (int i = 0; i < frame.fibres(); i++) {
      counts[frame.family[i]]++;
    }
    for (int f = 0; f < parts.length; f++) {
      parts[f] = new double[counts[f]];
      counts[f] = 0;
    }
    double[] residual = new double[Family.MOST_CASES];
    for (int i = 0; i < frame.fibres(); i++) {
      CaseAlgebra with = algebra(i);
      for (int k = 0; k < with.size(); k++) {
        residual[k] = centred[frame.start[i] + k] / frame.scale[i];
      }
      parts[frame.family[i]][counts[frame.family[i]]++] = with.part(residual);
    }
    for (int f = 0; f < parts.length; f++) {
      law[f] = SkewLaw.fit(parts[f], partSd(frame.families.get(f)));
    }
    algebra.forEach((key, with) -> with.take(law[(int) (key >> 32)]));
  }

  /** The algebra for a fibre's cases. */
  CaseAlgebra algebra(int fibre) {
    long key = ((long) frame.family[fibre] << 32) | frame.mask[fibre];
    CaseAlgebra with = algebra.get(key);
    if (with == null) {
      with = build(frame.families.get(frame.family[fibre]), frame.mask[fibre]);
      algebra.put(key, with);
    }
    return with;
  }

  private CaseAlgebra build(Family family, int mask) {
    int d = Integer.bitCount(mask);
    int[] cases = new int[d];
    double[] pattern = new double[d];
    int at = 0;
    for (int c = 0; c < family.cases().size(); c++) {
      if ((mask & (1 << c)) != 0) {
        cases[at] = c;
        pattern[at++] = family.cases().get(c).pattern();
      }
    }
    double[][] v = new double[d][d];
    for (int j = 0; j < d; j++) {
      Family.Case one = family.cases().get(cases[j]);
      for (int k = 0; k < d; k++) {
        Family.Case two = family.cases().get(cases[k]);
        v[j][k] = shared[family.index()][one.wavelengthAt()][two.wavelengthAt()];
        if (one.forward() == two.forward()) {
          v[j][k] += within[family.index()][one.wavelengthAt()][two.wavelengthAt()];
        }
      }
      v[j][j] += LEAST_DB * LEAST_DB;
    }
    return new CaseAlgebra(cases, pattern, v, law[family.index()]);
  }

  /** The law of a family's fibre parts. */
  SkewLaw law(Family family) {
    return law[family.index()];
  }

  /** Robust spread of a fibre's part in a family, dB at 1310 nm or the like. */
  double partSdDb(Family family) {
    return partSd(family);
  }

  /** Spread of one mating of the cords, seen in the difference of directions, dB. */
  double matingSdDb(Family family) {
    return Math.sqrt(within[family.index()][0][0]);
  }
}
