package ferrule.core.trust.joint;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;
import org.jspecify.annotations.Nullable;

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
  private static final int NEIGHBOURS = 24;

  /** Of so many fibres the scatter is known to a hundredth: of more, only every so many links. */
  private static final int PLENTY = 20_000;

  private final Frame frame;

  /** Fibres by family, first zero and time. */
  private final int[] order;

  private final double[][][] shared;
  private final double[][][] within;
  private final double[][][] linkShared;
  private final double[][][] linkWithin;
  private final SkewLaw[] law;
  private final Map<Long, CaseAlgebra> algebra = new HashMap<>();

  /** The same by group of fibres that look alike. */
  private final @Nullable CaseAlgebra[] byGroup;

  private Scatter(Frame frame) {
    this.frame = frame;
    this.order = frame.testOrder;
    int families = frame.families.size();
    this.shared = new double[families][][];
    this.within = new double[families][][];
    this.linkShared = new double[families][][];
    this.linkWithin = new double[families][][];
    this.law = new SkewLaw[families];
    this.byGroup = new CaseAlgebra[frame.groups.size()];
  }

  /**
   * Estimates scatter from residuals.
   *
   * @param residual dB, by reading
   */
  static Scatter of(Frame frame, double[] residual) {
    Scatter scatter = new Scatter(frame);
    double[] centred = scatter.centred(residual);
    double[] byLink = scatter.centredByLink(centred);
    for (Family family : frame.families) {
      scatter.estimate(family, residual, centred, byLink);
      scatter.learnPattern(family);
      scatter.law[family.index()] = SkewLaw.normal(scatter.partSdDb(family));
    }
    scatter.fitLaws(centred);
    return scatter;
  }

  /**
   * Scatter that is known beforehand: fibres of every family differ by a normal part and by nothing
   * else. With it the estimate is a textbook's mixed model of given variances, and its algebra can
   * be compared with one.
   *
   * @param partSdDb spread of that part, dB at 1310 nm or the like
   */
  static Scatter known(Frame frame, double partSdDb) {
    Scatter scatter = new Scatter(frame);
    for (Family family : frame.families) {
      int f = family.index();
      int m = family.wavelengths();
      double[][] part = new double[m][m];
      for (int j = 0; j < m; j++) {
        for (int k = 0; k < m; k++) {
          part[j][k] = partSdDb * partSdDb * family.patternOf(j) * family.patternOf(k);
        }
      }
      scatter.shared[f] = part;
      scatter.within[f] = new double[m][m];
      scatter.linkShared[f] = new double[m][m];
      scatter.linkWithin[f] = new double[m][m];
      scatter.law[f] = SkewLaw.normal(partSdDb);
    }
    return scatter;
  }

  /** Robust spread of a fibre's part in a family, dB at 1310 nm or the like. */
  double partSdDb(Family family) {
    double a = family.patternOf(0);
    return Math.sqrt((shared[family.index()][0][0] + 0.5 * within[family.index()][0][0]) / (a * a));
  }

  /**
   * Residuals less the median of their neighbours in time under the same level: about two dozen
   * fibres, whole links. A step or a drift then widens a few neighbourhoods and not the scatter.
   */
  private double[] centred(double[] residual) {
    int[] blockOf = neighbourhoods();
    int[] groupOf = new int[frame.readings()];
    int groups = 0;
    int block = -1;
    int[] levelsHere = new int[Family.MOST_CASES];
    int[] groupsHere = new int[Family.MOST_CASES];
    int here = 0;
    for (int i : order) {
      if (blockOf[i] != block) {
        block = blockOf[i];
        here = 0;
      }
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        int at = 0;
        while (at < here && levelsHere[at] != frame.levelOf[r]) {
          at++;
        }
        if (at == here) {
          if (here == levelsHere.length) {
            levelsHere = Arrays.copyOf(levelsHere, here * 2);
            groupsHere = Arrays.copyOf(groupsHere, here * 2);
          }
          levelsHere[here] = frame.levelOf[r];
          groupsHere[here++] = groups++;
        }
        groupOf[r] = groupsHere[at];
      }
    }
    int[] counts = new int[groups];
    for (int group : groupOf) {
      counts[group]++;
    }
    int all = groups + frame.families.size() * Family.MOST_CASES;
    int[] begin = new int[all + 1];
    for (int i = 0; i < frame.fibres(); i++) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        if (counts[groupOf[r]] < ENOUGH) {
          groupOf[r] = groups + frame.family[i] * Family.MOST_CASES + frame.caseOf[r];
        }
        begin[groupOf[r] + 1]++;
      }
    }
    for (int g = 0; g < all; g++) {
      begin[g + 1] += begin[g];
    }
    int[] next = begin.clone();
    double[] sorted = new double[residual.length];
    for (int r = 0; r < residual.length; r++) {
      sorted[next[groupOf[r]]++] = residual[r];
    }
    double[] centre = new double[all];
    for (int g = 0; g < all; g++) {
      centre[g] =
          OrderStats.quantileInPlace(Arrays.copyOfRange(sorted, begin[g], begin[g + 1]), 0.5);
    }
    double[] centred = new double[residual.length];
    for (int r = 0; r < residual.length; r++) {
      centred[r] = residual[r] - centre[groupOf[r]];
    }
    return centred;
  }

  /** Neighbourhood of each fibre: by family and zero, in the order of time, whole links. */
  private int[] neighbourhoods() {
    int[] blockOf = new int[frame.fibres()];
    int block = 0;
    int held = 0;
    for (int k = 0; k < order.length; k++) {
      int i = order[k];
      if (k > 0) {
        int before = order[k - 1];
        boolean another = !sameZero(before, i);
        boolean full = held >= NEIGHBOURS && frame.linkOf(before) != frame.linkOf(i);
        if (another || (full && remaining(k) >= NEIGHBOURS / 2)) {
          block++;
          held = 0;
        }
      }
      blockOf[i] = block;
      held++;
    }
    return blockOf;
  }

  /** Fibres of the same family and zero that are still to come, up to a neighbourhood's half. */
  private int remaining(int from) {
    int count = 0;
    while (count < NEIGHBOURS / 2
        && from + count < order.length
        && sameZero(order[from], order[from + count])) {
      count++;
    }
    return count;
  }

  private boolean sameZero(int one, int two) {
    return frame.family[one] == frame.family[two] && frame.firstZero(one) == frame.firstZero(two);
  }

  /**
   * Residuals less the mean of the fibres read together, stretched so that their spread is that of
   * a fibre within its link; NaN for fibres read alone.
   */
  private double[] centredByLink(double[] centred) {
    double[] byLink = new double[centred.length];
    Arrays.fill(byLink, Double.NaN);
    for (int i = 0; i < frame.fibres(); i += frame.together[i]) {
      int m = frame.together[i];
      int d = frame.start[i + 1] - frame.start[i];
      if (m < 2) {
        continue;
      }
      double stretch = Math.sqrt(m / (m - 1.0));
      double[] values = new double[m];
      for (int k = 0; k < d; k++) {
        double mean = 0;
        for (int j = 0; j < m; j++) {
          values[j] = centred[frame.start[i + j] + k];
          mean += values[j] / m;
        }
        double centre = m > 4 ? OrderStats.quantileInPlace(values, 0.5) : mean;
        for (int j = 0; j < m; j++) {
          int r = frame.start[i + j] + k;
          byLink[r] = (centred[r] - centre) * stretch;
        }
      }
    }
    return byLink;
  }

  private void estimate(Family family, double[] residual, double[] centred, double[] byLink) {
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
    double[][] usualSum = sum(usualShared, usualWithin, 0.5);
    double[][] usualGap = times(usualWithin, 0.5);
    int[] both = readBothWays(family, pairs, 1);
    int[] bothLinked = readBothWays(family, pairs, 2);
    int f = family.index();
    linkShared[f] = new double[m][m];
    linkWithin[f] = new double[m][m];
    if (both.length >= ENOUGH) {
      int n = both.length;
      double[][][] columns = halves(pairs, both, centred);
      double[][] sums = cov(family, columns[0]);
      double[][] gaps = cov(family, columns[1]);
      if (bothLinked.length >= 2 * ENOUGH) {
        double[][][] inside = halves(pairs, bothLinked, byLink);
        sums = cov(family, inside[0]);
        gaps = cov(family, inside[1]);
        n = bothLinked.length;
        LinkSteps steps = linkSteps(pairs, bothLinked, residual, true);
        double[][] sumsLink = linkPart(family, steps, 0, sums, usualGap);
        double[][] gapsLink = linkPart(family, steps, 1, gaps, usualGap);
        linkShared[f] = sum(sumsLink, gapsLink, -1);
        linkWithin[f] = times(gapsLink, 2);
      }
      sums = lean(sums, n, usualSum);
      gaps = lean(gaps, n, usualGap);
      shared[f] = sum(sums, gaps, -1);
      within[f] = times(gaps, 2);
      return;
    }
    int[] single = readOneWay(family, pairs, 1);
    if (single.length >= ENOUGH) {
      int[] linked = readOneWay(family, pairs, 2);
      double[][] one = cov(family, singles(pairs, single, centred));
      int n = single.length;
      if (linked.length >= 2 * ENOUGH) {
        one = cov(family, singles(pairs, linked, byLink));
        n = linked.length;
        LinkSteps steps = linkSteps(pairs, linked, residual, false);
        linkShared[f] = linkPart(family, steps, 0, one, usualWithin);
      }
      one = lean(one, n, sum(usualShared, usualWithin, 1));
      shared[f] = times(one, 0.8);
      within[f] = times(one, 0.2);
      return;
    }
    shared[f] = usualShared;
    within[f] = usualWithin;
  }

  /**
   * Differences of the means of links tested one after the other, over the root of two, and the
   * mean of one over the number of fibres in them.
   */
  private record LinkSteps(double[][][] columns, int count, double perFibre) {}

  private LinkSteps linkSteps(int[][] pairs, int[] fibres, double[] residual, boolean both) {
    boolean[] wanted = new boolean[frame.fibres()];
    for (int i : fibres) {
      wanted[i] = true;
    }
    int m = pairs.length;
    double[][][] columns = new double[2][m][fibres.length];
    int found = 0;
    double perFibre = 0;
    double[][] before = new double[0][];
    int last = -1;
    for (int k = 0; k < order.length; k++) {
      int i = order[k];
      if (!wanted[i] || (k > 0 && frame.linkOf(order[k - 1]) == frame.linkOf(i))) {
        continue;
      }
      int begin = i;
      while (begin > 0 && frame.linkOf(begin - 1) == frame.linkOf(i)) {
        begin--;
      }
      int together = frame.together[begin];
      double[][] mean = new double[2][m];
      for (int j = begin; j < begin + together; j++) {
        for (int w = 0; w < m; w++) {
          if (both) {
            double forward = at(j, pairs[w][0], residual);
            double back = at(j, pairs[w][1], residual);
            mean[0][w] += (forward + back) / 2 / together;
            mean[1][w] += (forward - back) / 2 / together;
          } else {
            int direction = hasAll(frame.mask[j], pairs, 0) ? 0 : 1;
            mean[0][w] += at(j, pairs[w][direction], residual) / together;
          }
        }
      }
      if (last >= 0 && sameZero(last, i)) {
        for (int w = 0; w < m; w++) {
          columns[0][w][found] = (mean[0][w] - before[0][w]) / Math.sqrt(2);
          columns[1][w][found] = (mean[1][w] - before[1][w]) / Math.sqrt(2);
        }
        found++;
        perFibre += 0.5 / together + 0.5 / frame.together[last];
      }
      before = mean;
      last = begin;
    }
    for (double[][] half : columns) {
      for (int w = 0; w < m; w++) {
        half[w] = Arrays.copyOf(half[w], found);
      }
    }
    return new LinkSteps(columns, found, perFibre / Math.max(1, found));
  }

  /**
   * What the fibres of a link share beyond their own scatter: the covariance of link means less
   * that of a mean of independent fibres, as far as it stands out of the uncertainty of such an
   * estimate. Few links lean on what arrays share by one mating, half of a mating, and on nothing
   * for links whose fibres are mated one by one.
   */
  private double[][] linkPart(
      Family family, LinkSteps steps, int which, double[][] inside, double[][] mating) {
    int m = inside.length;
    double[][] usual = times(mating, isArray(family) ? 0.5 : 0);
    if (steps.count() < 4) {
      return usual;
    }
    double[][] means = cov(family, steps.columns()[which]);
    double doubt = 1 + 1.5 * Math.sqrt(2.0 / steps.count());
    double[][] beyond =
        positive(sum(means, inside, -steps.perFibre() * (isArray(family) ? 1 : doubt)));
    return lean(beyond, steps.count(), usual);
  }

  private boolean isArray(Family family) {
    for (int i = 0; i < frame.fibres(); i++) {
      if (frame.family[i] == family.index()) {
        return frame.linkOf(i).a().connector().isArray();
      }
    }
    return false;
  }

  /** Turns the family's pattern to where its fibres differ most, as long as before. */
  private void learnPattern(Family family) {
    int f = family.index();
    int m = family.wavelengths();
    double[] expected = new double[m];
    for (int w = 0; w < m; w++) {
      expected[w] = family.patternOf(w);
    }
    frame.pattern[f] =
        CaseAlgebra.leading(new DMatrixRMaj(sum(shared[f], within[f], 0.5)), expected);
  }

  /** The nearest covariance: negative directions of a difference of estimates are cut off. */
  private static double[][] positive(double[][] symmetric) {
    int m = symmetric.length;
    EigenDecomposition_F64<DMatrixRMaj> eigen = DecompositionFactory_DDRM.eig(m, true, true);
    if (!eigen.decompose(new DMatrixRMaj(symmetric))) {
      return new double[m][m];
    }
    double[][] result = new double[m][m];
    for (int e = 0; e < m; e++) {
      double value = eigen.getEigenvalue(e).getReal();
      DMatrixRMaj vector = eigen.getEigenVector(e);
      if (value <= 0 || vector == null) {
        continue;
      }
      for (int j = 0; j < m; j++) {
        for (int k = 0; k < m; k++) {
          result[j][k] += value * vector.get(j) * vector.get(k);
        }
      }
    }
    return result;
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

  /** Fibres of a family with all cases both ways, of at least so many read together. */
  private int[] readBothWays(Family family, int[][] pairs, int together) {
    return fibres(family, together, mask -> hasAll(mask, pairs, 0) && hasAll(mask, pairs, 1));
  }

  private int[] readOneWay(Family family, int[][] pairs, int together) {
    return fibres(family, together, mask -> hasAll(mask, pairs, 0) || hasAll(mask, pairs, 1));
  }

  private int[] fibres(Family family, int together, IntPredicate masks) {
    int[] found = new int[frame.fibres()];
    int count = 0;
    for (int i = 0; i < found.length; i++) {
      if (frame.family[i] == family.index()
          && frame.together[i] >= together
          && masks.test(frame.mask[i])) {
        found[count++] = i;
      }
    }
    int step = Math.max(1, count / PLENTY);
    int kept = 0;
    for (int at = 0; at < count; at++) {
      // Whole links, by turns.
      if (step == 1 || frame.linkNumber[found[at]] % step == 0) {
        found[kept++] = found[at];
      }
    }
    return Arrays.copyOf(found, kept);
  }

  /** A fibre's readings stand in the order of their cases. */
  private double at(int fibre, int caseAt, double[] values) {
    int before = Integer.bitCount(frame.mask[fibre] & ((1 << caseAt) - 1));
    return values[frame.start[fibre] + before] / frame.scale[fibre];
  }

  private double[][][] halves(int[][] pairs, int[] fibres, double[] centred) {
    int m = pairs.length;
    double[][][] columns = new double[2][m][fibres.length];
    for (int at = 0; at < fibres.length; at++) {
      for (int w = 0; w < m; w++) {
        double forward = at(fibres[at], pairs[w][0], centred);
        double back = at(fibres[at], pairs[w][1], centred);
        columns[0][w][at] = (forward + back) / 2;
        columns[1][w][at] = (forward - back) / 2;
      }
    }
    return columns;
  }

  private double[][] singles(int[][] pairs, int[] fibres, double[] centred) {
    double[][] columns = new double[pairs.length][fibres.length];
    for (int at = 0; at < fibres.length; at++) {
      int i = fibres[at];
      int direction = hasAll(frame.mask[i], pairs, 0) ? 0 : 1;
      for (int w = 0; w < pairs.length; w++) {
        columns[w][at] = at(i, pairs[w][direction], centred);
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
    double[] ratio = new double[m];
    turned[0] = columns[0];
    for (int k = 1; k < m; k++) {
      ratio[k] = family.patternOf(k) / family.patternOf(0);
      turned[k] = new double[columns[k].length];
      for (int i = 0; i < columns[k].length; i++) {
        turned[k][i] = columns[k][i] - ratio[k] * columns[0][i];
      }
    }
    double[][] c = Robust.covariance(turned, LEAST_DB);
    double[][] back = new double[m][m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k < m; k++) {
        // x_k = t_k + ratio_k t_0, with ratio_0 = 0
        back[j][k] =
            c[j][k] + ratio[j] * c[0][k] + ratio[k] * c[j][0] + ratio[j] * ratio[k] * c[0][0];
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
      law[f] = SkewLaw.fit(parts[f], partSdDb(frame.families.get(f)));
    }
    // All of them are in use from here on, by several threads.
    algebra.forEach((key, one) -> one.take(law[(int) (key >> 40)]));
  }

  /** The algebra for a fibre's cases. */
  CaseAlgebra algebra(int fibre) {
    CaseAlgebra known = byGroup[frame.groups.of[fibre]];
    if (known == null) {
      long key =
          ((long) frame.family[fibre] << 40)
              | ((long) frame.together[fibre] << 20)
              | frame.mask[fibre];
      known =
          algebra.computeIfAbsent(
              key,
              k ->
                  build(
                      frame.families.get(frame.family[fibre]),
                      frame.mask[fibre],
                      frame.together[fibre]));
      byGroup[frame.groups.of[fibre]] = known;
    }
    return known;
  }

  private CaseAlgebra build(Family family, int mask, int together) {
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
    int f = family.index();
    double[][] v = covariance(family, cases, shared[f], within[f]);
    for (int j = 0; j < d; j++) {
      v[j][j] += LEAST_DB * LEAST_DB;
    }
    double[][] common = covariance(family, cases, linkShared[f], linkWithin[f]);
    return new CaseAlgebra(pattern, v, common, together, law[f]);
  }

  /**
   * Covariance of a fibre's readings in the order of the frame, dB², for a fibre of scale 1: its
   * own part, the matings, and what the fibres of its link share.
   */
  double[][] covariance(int fibre) {
    int f = frame.family[fibre];
    Family family = frame.families.get(f);
    int[] cases = Arrays.copyOfRange(frame.caseOf, frame.start[fibre], frame.start[fibre + 1]);
    double[][] v = covariance(family, cases, shared[f], within[f]);
    if (frame.together[fibre] > 1) {
      v = sum(v, covariance(family, cases, linkShared[f], linkWithin[f]), 1);
    }
    for (int j = 0; j < v.length; j++) {
      v[j][j] += LEAST_DB * LEAST_DB;
    }
    return v;
  }

  /**
   * Covariance of two readings of one fibre in any cases of its family, dB², scale taken in.
   *
   * @param sameMating whether, if of one direction, both were read without unplugging between
   */
  double covariance(int fibre, Family.Case one, Family.Case two, boolean sameMating) {
    int f = frame.family[fibre];
    int w = one.wavelengthAt();
    int x = two.wavelengthAt();
    boolean mated = sameMating && one.forward() == two.forward();
    double v = shared[f][w][x] + (mated ? within[f][w][x] : 0);
    if (frame.together[fibre] > 1) {
      v += linkShared[f][w][x] + (mated ? linkWithin[f][w][x] : 0);
    }
    if (mated && w == x) {
      v += LEAST_DB * LEAST_DB;
    }
    return v * frame.scale[fibre] * frame.scale[fibre];
  }

  /** Covariance of some cases: what all of them share, and what those of one direction do. */
  private static double[][] covariance(
      Family family, int[] cases, double[][] byAll, double[][] byDirection) {
    int d = cases.length;
    double[][] v = new double[d][d];
    for (int j = 0; j < d; j++) {
      Family.Case one = family.cases().get(cases[j]);
      for (int k = 0; k < d; k++) {
        Family.Case two = family.cases().get(cases[k]);
        v[j][k] = byAll[one.wavelengthAt()][two.wavelengthAt()];
        if (one.forward() == two.forward()) {
          v[j][k] += byDirection[one.wavelengthAt()][two.wavelengthAt()];
        }
      }
    }
    return v;
  }
}
