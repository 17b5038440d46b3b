package ferrule.core.trust.joint;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.CholeskyDecomposition_F64;

/**
 * The readings under one zero in the order of time, tried for steps and drifts.
 *
 * <p>What an effect shares with the estimated parts is a vector {@code g}; its information is less
 * by {@code g'Cg = |L'g|^2}, with {@code C = LL'} the covariance of the parts that the zero's
 * readings touch. The vectors are kept as {@code L'g}: fibres that look alike to the estimate share
 * them up to their scale and length, so a reading adds a multiple of two known vectors.
 */
final class ZeroScan {

  private static final int MOST_LEVELS = 64;

  /** So many fibres on either side are asked of a step before its size is promised. */
  static final int FIBRES_BESIDE = 20;

  /** A step of fewer standard deviations cannot ring: its chance is not worked out. */
  private static final double LEAST_RATIO = 3;

  /** Share of an effect's information that must be left beside all that is in the fit. */
  private static final double LEAST_NEW = 1e-4;

  private final JointFit fit;
  private final Frame frame;
  private final int zero;
  private final int[] fibres;

  /** Readings under the zero, late ones first, and the place of their fibre in the zero's list. */
  private final int[] readings;

  private final int[] fibreAt;

  /** By place in the zero's list: number of the fibre's link, in the order of the schedule. */
  private final int[] linkAt;

  private final int links;

  /**
   * Estimated parts that the fibres touch: levels, the zero's own first, then those of other zeros
   * that a fibre was read under too; then border columns.
   */
  private final int[] levels;

  /** How many of the levels are the zero's own. */
  private final int own;

  private final int[] columns;
  private final int width;

  /** {@code L}, row by row. */
  private final double[] root;

  /** By place in the zero's list: what it shares with the parts. */
  private final Alike[] alikeAt;

  /** Effects in the fit that touch these parts, and where in them. */
  private final List<Effect> effects = new ArrayList<>();

  private final List<Integer> effectPlaces = new ArrayList<>();

  /**
   * Fibres that look alike.
   *
   * @param information of a fibre of scale 1, row by row
   * @param once by case: {@code L'} times what a reading shares with the parts that its fibre
   *     touches whatever its length
   * @param perKm by case: with those that it touches by the kilometre
   */
  private record Alike(double[] information, double[][] once, double[][] perKm) {
    int cases() {
      return once.length;
    }
  }

  ZeroScan(JointFit fit, int zero, int[] fibres) {
    this.fit = fit;
    this.frame = fit.frame;
    this.zero = zero;
    this.fibres = fibres;
    int count = 0;
    for (int i : fibres) {
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        count += frame.zeroOf(r) == zero ? 1 : 0;
      }
    }
    int[] found = new int[count];
    int[] place = new int[count];
    long[] order = new long[count];
    int at = 0;
    this.linkAt = new int[fibres.length];
    for (int f = 0; f < fibres.length; f++) {
      int i = fibres[f];
      if (f > 0) {
        linkAt[f] = linkAt[f - 1] + (frame.linkOf(i) == frame.linkOf(fibres[f - 1]) ? 0 : 1);
      }
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        if (frame.zeroOf(r) == zero) {
          found[at] = r;
          place[at] = f;
          // Whole seconds; of equal ones the later in the schedule is taken for the later.
          order[at] = (long) frame.seconds[r] * count + at;
          at++;
        }
      }
    }
    this.links = fibres.length == 0 ? 0 : linkAt[fibres.length - 1] + 1;
    Arrays.sort(order);
    this.readings = new int[count];
    this.fibreAt = new int[count];
    for (int k = 0; k < count; k++) {
      int from = (int) (order[count - 1 - k] % count);
      readings[k] = found[from];
      fibreAt[k] = place[from];
    }
    this.own = frame.levelsOfZero[zero].length;
    this.levels = levelsOf(zero, fibres);
    this.columns = fit.columnsOf(levels);
    this.width = levels.length + columns.length;
    this.root = root(fit.covarianceOf(levels, columns), width);
    this.alikeAt = new Alike[fibres.length];
    findAlike();
  }

  private int[] levelsOf(int zero, int[] fibres) {
    Set<Integer> seen = new LinkedHashSet<>();
    for (int level : frame.levelsOfZero[zero]) {
      seen.add(level);
    }
    for (int i : fibres) {
      for (int r = frame.start[i]; r < frame.start[i + 1] && seen.size() < MOST_LEVELS; r++) {
        if (frame.zeroOf(r) != zero) {
          seen.add(frame.levelOf[r]);
        }
      }
    }
    return seen.stream().mapToInt(level -> level).toArray();
  }

  /** {@code L} of {@code LL' = C}; a covariance that rounding has made singular is lifted a bit. */
  private static double[] root(double[] covariance, int n) {
    double largest = 0;
    for (int i = 0; i < n; i++) {
      largest = Math.max(largest, covariance[i * n + i]);
    }
    for (double lift = 0; ; lift = Math.max(1e-14, 100 * lift)) {
      DMatrixRMaj c = new DMatrixRMaj(n, n, true, covariance);
      for (int i = 0; i < n; i++) {
        c.add(i, i, lift * largest);
      }
      CholeskyDecomposition_F64<DMatrixRMaj> cholesky = DecompositionFactory_DDRM.chol(n, true);
      if (cholesky.decompose(c)) {
        return cholesky.getT(null).data;
      }
      if (lift > 1) {
        throw new IllegalStateException("A covariance with a large diagonal cannot be singular");
      }
    }
  }

  private void findAlike() {
    int[] placeOfColumn = new int[fit.borderSize()];
    Arrays.fill(placeOfColumn, -1);
    for (int c = 0; c < columns.length; c++) {
      placeOfColumn[columns[c]] = levels.length + c;
    }
    for (int e = 0; e < fit.effects.size(); e++) {
      if (placeOfColumn[fit.effectAt(e)] >= 0) {
        effects.add(fit.effects.get(e));
        effectPlaces.add(placeOfColumn[fit.effectAt(e)]);
      }
    }
    Alike[] known = new Alike[16];
    int[] groups = new int[16];
    int size = 0;
    for (int f = 0; f < fibres.length; f++) {
      int group = frame.groups.of[fibres[f]];
      int at = 0;
      while (at < size && groups[at] != group) {
        at++;
      }
      if (at == size) {
        if (size == known.length) {
          known = Arrays.copyOf(known, size * 2);
          groups = Arrays.copyOf(groups, size * 2);
        }
        groups[size] = group;
        known[size++] = alike(fibres[f], placeOfColumn);
      }
      alikeAt[f] = known[at];
    }
  }

  private Alike alike(int fibre, int[] placeOfColumn) {
    int begin = frame.start[fibre];
    int d = frame.start[fibre + 1] - begin;
    double[][] once = new double[d][width];
    double[][] perKm = new double[d][width];
    for (int k = 0; k < d; k++) {
      for (int l = 0; l < levels.length; l++) {
        if (levels[l] == frame.levelOf[begin + k]) {
          addRow(once[k], l, 1);
        }
      }
    }
    fit.eachColumn(
        fibre,
        (column, x, timesKm) -> {
          int at = placeOfColumn[column];
          for (int k = 0; at >= 0 && k < d; k++) {
            addRow(timesKm ? perKm[k] : once[k], at, x[k]);
          }
        });
    double[] information = fit.information(fibre);
    return new Alike(information, weighted(information, once), weighted(information, perKm));
  }

  private double[][] weighted(double[] information, double[][] parts) {
    int d = parts.length;
    double[][] weighted = new double[d][width];
    for (int k = 0; k < d; k++) {
      for (int j = 0; j < d; j++) {
        add(weighted[k], parts[j], information[k * d + j]);
      }
    }
    return weighted;
  }

  /** Adds {@code L'} times a part. */
  private void addRow(double[] to, int part, double times) {
    for (int c = 0; c <= part; c++) {
      to[c] += times * root[part * width + c];
    }
  }

  private static void add(double[] to, double[] what, double times) {
    for (int c = 0; c < to.length; c++) {
      to[c] += times * what[c];
    }
  }

  private static double squared(double[] u) {
    double sum = 0;
    for (double one : u) {
      sum += one * one;
    }
    return sum;
  }

  /** Number of distinct times. */
  int moments() {
    int count = readings.length == 0 ? 0 : 1;
    for (int k = 1; k < readings.length; k++) {
      count += frame.seconds[readings[k]] != frame.seconds[readings[k - 1]] ? 1 : 0;
    }
    return count;
  }

  /**
   * Whether an effect says anything that is not in the fit already. Of one taken in before, only
   * the weight of its wide prior is left; measured by that, the last digits of a fit that stopped
   * short would look like an enormous effect.
   */
  private static boolean isNew(double information, double whole) {
    return information > Math.max(1e-6, LEAST_NEW * whole);
  }

  /**
   * What the cuts of a series show.
   *
   * @param largest the step that fits best, {@code logChance} the bare chance within this series
   * @param widestSdDb largest standard deviation of a step, dB, at any cut with {@value
   *     #FIBRES_BESIDE} fibres on either side, or with a third of all of them if there are fewer;
   *     infinite if there is none
   * @param fibres in the series
   */
  record Cuts(Optional<Suspect> largest, double widestSdDb, int fibres) {}

  /** Tries a step at every cut between two fibres. */
  Cuts cuts(Part part, int fewest) {
    boolean[] held = held(part);
    boolean[] counted = new boolean[fibres.length];
    int total = 0;
    for (int k = 0; k < readings.length; k++) {
      if (held[levelPlace(readings[k])] && !counted[fibreAt[k]]) {
        counted[fibreAt[k]] = true;
        total++;
      }
    }
    Arrays.fill(counted, false);
    boolean[] linkSeen = new boolean[links];
    int linksAfter = 0;
    int after = 0;
    double[] x = new double[fibres.length * Family.MOST_CASES];
    double[] u = new double[width];
    double score = 0;
    double h = 0;
    double best = 0;
    double bestFrom = 0;
    double bestScore = 0;
    double bestInformation = 1;
    int bestAfter = 0;
    int beside = Math.min(FIBRES_BESIDE, total / 3);
    double leastInformation = Double.POSITIVE_INFINITY;
    int previous = -1;
    for (int k = 0; k < readings.length; k++) {
      int r = readings[k];
      if (!held[levelPlace(r)]) {
        continue;
      }
      int f = fibreAt[k];
      int i = fibres[f];
      boolean boundary =
          previous >= 0
              && fibreAt[previous] != f
              && frame.seconds[r] < frame.seconds[readings[previous]];
      if (boundary
          && after >= fewest
          && total - after >= fewest
          && !insidePlug(previous, k)
          && (insideLink(previous, k)
              || (linksAfter >= Search.FEWEST_LINKS
                  && links - linksAfter >= Search.FEWEST_LINKS))) {
        double information = h - squared(u);
        if (after >= beside && total - after >= beside && isNew(information, h)) {
          leastInformation = Math.min(leastInformation, information);
        }
        if (isNew(information, h) && score * score > best * best * information) {
          best = Math.abs(score) / Math.sqrt(information);
          bestFrom = frame.seconds[readings[previous]];
          bestScore = score;
          bestInformation = information;
          bestAfter = after;
        }
      }
      int begin = frame.start[i];
      Alike alike = alikeAt[f];
      int d = alike.cases();
      int row = r - begin;
      int local = f * Family.MOST_CASES;
      double per = 1 / (frame.scale[i] * frame.scale[i]);
      double sum = alike.information[row * d + row];
      for (int j = 0; j < d; j++) {
        sum += 2 * alike.information[row * d + j] * x[local + j];
      }
      h += per * sum;
      x[local + row] = 1;
      score += fit.score[r];
      double[] once = alike.once[row];
      double[] byKm = alike.perKm[row];
      double perKm = per * frame.km[i];
      for (int c = 0; c < width; c++) {
        u[c] += per * once[c] + perKm * byKm[c];
      }
      for (int e = 0; e < effects.size(); e++) {
        double shared = 0;
        for (int j = 0; j < d; j++) {
          shared += alike.information[row * d + j] * effects.get(e).at(frame, i, begin + j);
        }
        addRow(u, effectPlaces.get(e), per * shared);
      }
      if (!counted[f]) {
        counted[f] = true;
        after++;
        if (!linkSeen[linkAt[f]]) {
          linkSeen[linkAt[f]] = true;
          linksAfter++;
        }
      }
      previous = k;
    }
    double widestSdDb =
        Double.isInfinite(leastInformation)
            ? Double.POSITIVE_INFINITY
            : 1 / Math.sqrt(leastInformation);
    if (best == 0) {
      return new Cuts(Optional.empty(), widestSdDb, total);
    }
    Suspect largest =
        new Suspect(
            new Effect.Step(zero, part, bestFrom),
            bestScore / bestInformation,
            1 / Math.sqrt(bestInformation),
            best < LEAST_RATIO ? 0 : Looks.logLargestCut(best, total, fewest),
            bestAfter);
    return new Cuts(Optional.of(largest), widestSdDb, total);
  }

  /**
   * Whether two readings are of fibres of one link that are mated one by one: a cut between them
   * cannot be a trait of the link.
   */
  private boolean insideLink(int one, int two) {
    return linkAt[fibreAt[one]] == linkAt[fibreAt[two]] && !isArray(two);
  }

  /** Whether two readings are of fibres that one plug mates together: no cord end changed then. */
  private boolean insidePlug(int one, int two) {
    return linkAt[fibreAt[one]] == linkAt[fibreAt[two]] && isArray(two);
  }

  private boolean isArray(int reading) {
    return frame.linkOf(fibres[fibreAt[reading]]).a().connector().isArray();
  }

  /** Which of the zero's levels a part holds. */
  private boolean[] held(Part part) {
    boolean[] held = new boolean[own];
    for (int l = 0; l < own; l++) {
      held[l] = part.holds(frame.levels.get(levels[l]));
    }
    return held;
  }

  /** Place of a reading's level among the zero's: they are numbered one after the other. */
  private int levelPlace(int reading) {
    return frame.levelOf[reading] - levels[0];
  }

  /** Drifts of one course, tried for any part of the zero. */
  final class Drifts {
    private final Effect.Course course;
    private final double from;
    private final double to;
    private final double[] score = new double[own];
    private final int[] touched = new int[own];
    private final double[][] both = new double[own][own];
    private final double[][] shared = new double[own][width];

    /** Takes a drift from the first to the last reading, each level apart. */
    Drifts(Effect.Course course) {
      this.course = course;
      this.from = frame.seconds[readings[readings.length - 1]];
      this.to = frame.seconds[readings[0]];
      double[] x = new double[Family.MOST_CASES];
      for (int f = 0; f < fibres.length; f++) {
        take(f, x);
      }
    }

    private void take(int f, double[] x) {
      int i = fibres[f];
      int begin = frame.start[i];
      Alike alike = alikeAt[f];
      int d = alike.cases();
      double per = 1 / (frame.scale[i] * frame.scale[i]);
      double perKm = per * frame.km[i];
      for (int j = 0; j < d; j++) {
        int r = begin + j;
        x[j] = frame.zeroOf(r) == zero ? course.at((frame.seconds[r] - from) / (to - from)) : 0;
      }
      for (int j = 0; j < d; j++) {
        if (x[j] == 0) {
          continue;
        }
        int level = levelPlace(begin + j);
        score[level] += x[j] * fit.score[begin + j];
        touched[level]++;
        for (int k = 0; k < d; k++) {
          if (x[k] != 0) {
            both[level][levelPlace(begin + k)] += per * x[j] * alike.information[j * d + k] * x[k];
          }
        }
        double[] once = alike.once[j];
        double[] byKm = alike.perKm[j];
        double[] into = shared[level];
        double weight = per * x[j];
        double weightKm = perKm * x[j];
        for (int c = 0; c < width; c++) {
          into[c] += weight * once[c] + weightKm * byKm[c];
        }
        for (int e = 0; e < effects.size(); e++) {
          double sum = 0;
          for (int k = 0; k < d; k++) {
            sum += alike.information[j * d + k] * effects.get(e).at(frame, i, begin + k);
          }
          addRow(into, effectPlaces.get(e), weight * sum);
        }
      }
    }

    /** The drift of a part of the zero. */
    Suspect of(Part part) {
      boolean[] held = held(part);
      double[] u = new double[width];
      double s = 0;
      double h = 0;
      int count = 0;
      for (int l = 0; l < held.length; l++) {
        if (!held[l]) {
          continue;
        }
        s += score[l];
        count += touched[l];
        add(u, shared[l], 1);
        for (int m = 0; m < held.length; m++) {
          h += held[m] ? both[l][m] : 0;
        }
      }
      double information = Math.max(h - squared(u), 1e-9);
      if (!isNew(information, h)) {
        s = 0;
      }
      return new Suspect(
          new Effect.Drift(zero, part, from, to, course),
          s / information,
          1 / Math.sqrt(information),
          0,
          Math.min(count, fibres.length));
    }
  }
}
