package ferrule.core.trust.joint;

import ferrule.core.trust.joint.Frame.Level;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * The joint estimate: every reading less its expected loss is the sum of glass (per km, category
 * and wavelength), connections and splices counted, the shift of its zero's level, its places and
 * its position, the effects found so far, and the fibre's own scatter ({@link Scatter}).
 *
 * <p>Levels and parts carry normal priors: how far an honest zero, glass or connection lies from
 * what is usual. The fibre's own part follows a skewed law with a vanishing right tail, so that bad
 * links do not move the zeros. The estimate is the mode, found by Fisher scoring; its covariance is
 * the inverse of the information, as for a linear mixed model (Henderson's equations).
 *
 * <p>The information is a bordered block matrix: levels that share fibres form small blocks, all
 * other parts form the border, so the work grows in proportion to the readings.
 */
final class JointFit {

  /**
   * Honest spread of a zero's level that all its levels share, dB: meter connection and seating.
   */
  static final double ZERO_SD = 0.012;

  private static final double ZERO_DIRECTION_SD = 0.014;
  private static final double ZERO_WAVELENGTH_SD = 0.006;
  private static final double LEVEL_SD = 0.008;

  /** A cord pair inside a two- or three-cord zero adds this much for each pair, dB. */
  private static final double PAIR_SD = 0.03;

  private static final double CONNECTION_MEAN_SD = 0.12;
  private static final double CONNECTION_PATTERN_SD = 0.015;
  private static final double ALIKE_CABLE_SD = 0.004;
  private static final double CABLE_PATTERN_SD = 0.010;
  private static final double INNER_SD = 0.08;
  private static final double SPLICE_SD = 0.03;

  /** Connections inside and splices held to what is usual: this part of how far they may lie. */
  private static final double HELD = 0.25;

  /**
   * How far an inner connection, and a splice, may lie from the pattern of the whole at one
   * wavelength, dB: those inside need not lose by lateral offset alone.
   */
  private static final double INNER_PATTERN_SD = 0.02;

  private static final double SPLICE_PATTERN_SD = 0.008;
  private static final double BIAS_SD = 0.008;
  private static final double PLACE_SD = 0.008;

  /** Prior of the size of an effect once it is taken in, dB: wide. */
  private static final double EFFECT_SD = 1;

  private static final int LARGEST_BLOCK = 300;
  private static final int MOST_ROUNDS = 25;

  /** The rounds end when no part moves by more, dB. */
  private static final double CLOSELY_DB = 1e-4;

  /** Near enough to learn the scatter from. */
  private static final double ROUGHLY_DB = 2e-3;

  /** Fibres that one thread takes at a time; what comes out does not depend on it. */
  private static final int CHUNK = 4096;

  final Frame frame;
  final Scatter scatter;
  final List<Effect> effects;
  private final boolean alikeCables;
  private final boolean usualInside;

  private final int levelCount;
  private final int base;
  private final int border;
  private final int[] familyBase;
  private final int bias;
  private final int placeBase;
  private final int[] cableBase;
  private final double[] borderPrecision;

  private final int[] blockOf;
  private final int[] placeInBlock;
  private final int[][] blocks;
  private final double[][] priorOfZero;

  private final GroupColumns[] groups;
  private final int[][] effectReadings;
  private final double[][] effectValues;

  private final double[][] inverse;
  private int[][] touched = new int[0][];
  private double[][] solved = new double[0][];
  private double[] borderInverse = new double[0];

  /** Estimates: levels first, then the border. */
  final double[] levels;

  final double[] parts;

  /** Score of each reading at the estimate, 1/dB. */
  final double[] score;

  /** Reading less all estimated parts, dB. */
  final double[] residual;

  private JointFit(
      Frame frame,
      Scatter scatter,
      List<Effect> effects,
      boolean alikeCables,
      boolean usualInside) {
    this.frame = frame;
    this.scatter = scatter;
    this.effects = List.copyOf(effects);
    this.alikeCables = alikeCables;
    this.usualInside = usualInside;
    this.levelCount = frame.levels.size();
    this.familyBase = new int[frame.families.size()];
    int at = 0;
    for (Family family : frame.families) {
      familyBase[family.index()] = at;
      at += 3 + 4 * family.wavelengths();
    }
    this.bias = at++;
    this.placeBase = at;
    at = placeBase + frame.places.size();
    this.cableBase = new int[frame.cables.length];
    for (int c = 0; c < cableBase.length; c++) {
      cableBase[c] = at;
      at += 1 + 2 * frame.families.get(frame.cables[c]).wavelengths();
    }
    this.base = at;
    this.border = base + effects.size();
    this.borderPrecision = new double[border];
    fillPrecision();
    this.blockOf = new int[levelCount];
    this.placeInBlock = new int[levelCount];
    this.blocks = blocks();
    this.priorOfZero = new double[frame.zeros.size()][];
    for (int z = 0; z < priorOfZero.length; z++) {
      priorOfZero[z] = prior(z);
    }
    this.groups = new GroupColumns[frame.groups.size()];
    this.effectReadings = new int[effects.size()][];
    this.effectValues = new double[effects.size()][];
    this.inverse = new double[blocks.length][];
    this.levels = new double[levelCount];
    this.parts = new double[border];
    this.score = new double[frame.readings()];
    this.residual = new double[frame.readings()];
  }

  private void fillPrecision() {
    for (Family family : frame.families) {
      int b = familyBase[family.index()];
      borderPrecision[b] = precision(CONNECTION_MEAN_SD);
      double held = usualInside ? HELD : 1;
      borderPrecision[b + 1] = precision(held * INNER_SD);
      borderPrecision[b + 2] = precision(held * SPLICE_SD);
      for (int w = 0; w < family.wavelengths(); w++) {
        borderPrecision[b + 3 + 4 * w] = precision(CONNECTION_PATTERN_SD);
        borderPrecision[b + 4 + 4 * w] = precision(glassSd(family, family.nm(w)));
        borderPrecision[b + 5 + 4 * w] = precision(INNER_PATTERN_SD);
        borderPrecision[b + 6 + 4 * w] = precision(SPLICE_PATTERN_SD);
      }
    }
    borderPrecision[bias] = precision(BIAS_SD);
    Arrays.fill(borderPrecision, placeBase, placeBase + frame.places.size(), precision(PLACE_SD));
    boolean[] ofHighPlaces = cablesOfHighPlaces();
    for (int c = 0; c < cableBase.length; c++) {
      Family family = frame.families.get(frame.cables[c]);
      boolean alike = alikeCables || ofHighPlaces[c];
      borderPrecision[cableBase[c]] = precision(alike ? ALIKE_CABLE_SD : frame.cableSd[c]);
      for (int w = 0; w < family.wavelengths(); w++) {
        borderPrecision[cableBase[c] + 1 + 2 * w] = precision(CABLE_PATTERN_SD);
        borderPrecision[cableBase[c] + 2 + 2 * w] = precision(cableSd(family, family.nm(w)));
      }
    }
    Arrays.fill(borderPrecision, base, border, precision(EFFECT_SD));
  }

  /**
   * Cables that end at a place found high: what they lose is left to the place, as it was when the
   * place was found.
   */
  private boolean[] cablesOfHighPlaces() {
    boolean[] found = new boolean[frame.cables.length];
    for (Effect effect : effects) {
      if (effect instanceof Effect.HighPlace high) {
        for (int i = 0; i < frame.fibres(); i++) {
          boolean ends = frame.placeA[i] == high.place() || frame.placeB[i] == high.place();
          if (ends && frame.cable[i] >= 0) {
            found[frame.cable[i]] = true;
          }
        }
      }
    }
    return found;
  }

  /** How far a cable's glass may lie from what is usual, dB/km. */
  private static double glassSd(Family family, int nm) {
    return family.singleMode() ? 0.02 : nm < 1000 ? 0.15 : 0.10;
  }

  /** How far the glass of one cable may lie from that of the job's others, dB/km. */
  private static double cableSd(Family family, int nm) {
    return family.singleMode() ? 0.012 : nm < 1000 ? 0.09 : 0.04;
  }

  private static double precision(double sd) {
    return 1 / (sd * sd);
  }

  /** Index in the border of what all connections of a family share. */
  int connectionsAt(int family) {
    return familyBase[family];
  }

  /**
   * Index in the border of what each connection inside, or splice, of a family loses beside usual.
   */
  int insideAt(int family, boolean splices) {
    return familyBase[family] + (splices ? 2 : 1);
  }

  /** Index in the border of the direction bias. */
  int biasAt() {
    return bias;
  }

  int placeAt(int place) {
    return placeBase + place;
  }

  int effectAt(int effect) {
    return base + effect;
  }

  double precisionAt(int borderIndex) {
    return borderPrecision[borderIndex];
  }

  /**
   * Levels that zeros and fibres tie together, in blocks. Where fibres would tie too many, only the
   * levels of one zero stay together.
   */
  private int[][] blocks() {
    int[] root = tied(true);
    int[] size = new int[levelCount];
    int largest = 0;
    for (int l = 0; l < levelCount; l++) {
      largest = Math.max(largest, ++size[find(root, l)]);
    }
    if (largest > LARGEST_BLOCK) {
      root = tied(false);
    }
    int[] number = new int[levelCount];
    Arrays.fill(number, -1);
    List<List<Integer>> found = new ArrayList<>();
    for (int l = 0; l < levelCount; l++) {
      int top = find(root, l);
      if (number[top] < 0) {
        number[top] = found.size();
        found.add(new ArrayList<>());
      }
      blockOf[l] = number[top];
      placeInBlock[l] = found.get(number[top]).size();
      found.get(number[top]).add(l);
    }
    int[][] result = new int[found.size()][];
    for (int b = 0; b < result.length; b++) {
      result[b] = found.get(b).stream().mapToInt(x -> x).toArray();
    }
    return result;
  }

  private int[] tied(boolean byFibres) {
    int[] root = new int[levelCount];
    for (int l = 0; l < levelCount; l++) {
      root[l] = l;
    }
    for (int[] own : frame.levelsOfZero) {
      for (int l : own) {
        union(root, own[0], l);
      }
    }
    for (int i = 0; byFibres && i < frame.fibres(); i++) {
      for (int r = frame.start[i] + 1; r < frame.start[i + 1]; r++) {
        union(root, frame.levelOf[frame.start[i]], frame.levelOf[r]);
      }
    }
    return root;
  }

  private static int find(int[] root, int at) {
    int top = at;
    while (root[top] != top) {
      root[top] = root[root[top]];
      top = root[top];
    }
    return top;
  }

  private static void union(int[] root, int one, int two) {
    int a = find(root, one);
    int b = find(root, two);
    root[Math.max(a, b)] = Math.min(a, b);
  }

  /** Prior precision of a zero's levels, row by row. */
  private double[] prior(int zero) {
    int[] own = frame.levelsOfZero[zero];
    int k = own.length;
    int pairs = frame.zeros.get(zero).method().cordPairs();
    DMatrixRMaj covariance = new DMatrixRMaj(k, k);
    for (int i = 0; i < k; i++) {
      Level one = frame.levels.get(own[i]);
      for (int j = 0; j < k; j++) {
        Level two = frame.levels.get(own[j]);
        covariance.set(
            i, j, priorCovariance(one.forward() == two.forward(), one.nm() == two.nm(), pairs));
      }
    }
    DMatrixRMaj precision = new DMatrixRMaj(k, k);
    if (!CommonOps_DDRM.invert(covariance, precision)) {
      throw new IllegalStateException("A zero's prior cannot be singular");
    }
    return precision.data;
  }

  /** How two levels of one honest zero vary together, dB², for so many cord pairs taken out. */
  static double priorCovariance(boolean sameDirection, boolean sameWavelength, int pairs) {
    double v = ZERO_SD * ZERO_SD;
    v += sameDirection ? ZERO_DIRECTION_SD * ZERO_DIRECTION_SD + pairs * PAIR_SD * PAIR_SD : 0;
    v += sameWavelength ? ZERO_WAVELENGTH_SD * ZERO_WAVELENGTH_SD : 0;
    v += sameDirection && sameWavelength ? LEVEL_SD * LEVEL_SD : 0;
    return v;
  }

  double[] priorOf(int zero) {
    return priorOfZero[zero];
  }

  /** Fits a job: scatter, then estimate, then both once more. */
  static JointFit of(Frame frame) {
    JointFit first = of(frame, Scatter.of(frame, frame.excess), ROUGHLY_DB);
    Scatter better = Scatter.of(frame, first.withoutLevels());
    JointFit second = new JointFit(frame, better, List.of(), false, false);
    second.startFrom(first);
    second.solve(CLOSELY_DB);
    return second;
  }

  /** Fits a job whose scatter is known beforehand. */
  static JointFit of(Frame frame, Scatter scatter) {
    return of(frame, scatter, CLOSELY_DB);
  }

  private static JointFit of(Frame frame, Scatter scatter, double toDb) {
    JointFit fit = new JointFit(frame, scatter, List.of(), false, false);
    fit.solve(toDb);
    return fit;
  }

  /** Fits again with other effects and the same scatter. */
  JointFit with(List<Effect> others) {
    JointFit next = new JointFit(frame, scatter, others, alikeCables, usualInside);
    next.startFrom(this);
    next.solve(CLOSELY_DB);
    return next;
  }

  /**
   * Fits again, the cables taken to have alike connections: a poor batch at one panel is then left
   * to the panel.
   */
  JointFit withAlikeCables() {
    JointFit next = new JointFit(frame, scatter, effects, true, usualInside);
    next.startFrom(this);
    next.findParts(CLOSELY_DB);
    return next;
  }

  /**
   * Fits again, connections inside the links and splices held near what is usual: what they might
   * explain is then left to zeros and panels.
   */
  JointFit withUsualInside() {
    JointFit next = new JointFit(frame, scatter, effects, alikeCables, true);
    next.startFrom(this);
    next.solve(CLOSELY_DB);
    return next;
  }

  /** How far connections inside, or splices, of a family lose more than usual, dB each. */
  double insideDb(int family, boolean splices) {
    return parts[insideAt(family, splices)];
  }

  /** How far they may honestly lie from what is usual, dB each. */
  static double insideSdDb(boolean splices) {
    return splices ? SPLICE_SD : INNER_SD;
  }

  /** Fits again with scatter estimated anew, effects taken out. */
  JointFit refined() {
    double[] clean = withoutLevels();
    JointFit next =
        new JointFit(frame, Scatter.of(frame, clean), effects, alikeCables, usualInside);
    next.startFrom(this);
    next.solve(CLOSELY_DB);
    return next;
  }

  private void startFrom(JointFit other) {
    System.arraycopy(other.levels, 0, levels, 0, levelCount);
    System.arraycopy(other.parts, 0, parts, 0, base);
    for (int e = 0; e < effects.size(); e++) {
      int before = other.effects.indexOf(effects.get(e));
      if (before >= 0) {
        parts[base + e] = other.parts[base + before];
      }
    }
  }

  /** Residuals with the levels' shifts put back, for the scatter within levels. */
  private double[] withoutLevels() {
    double[] values = new double[residual.length];
    for (int r = 0; r < values.length; r++) {
      values[r] = residual[r] + levels[frame.levelOf[r]];
    }
    return values;
  }

  /** The border columns that a group's fibres touch, and what each adds to each reading. */
  private static final class GroupColumns {
    int[] column = new int[16];
    double[][] x = new double[16][];
    boolean[] perKm = new boolean[16];
    int size;
    double[] information = new double[0];

    void add(int which, double[] values, boolean timesKm) {
      if (size == column.length) {
        column = Arrays.copyOf(column, size * 2);
        x = Arrays.copyOf(x, size * 2);
        perKm = Arrays.copyOf(perKm, size * 2);
      }
      column[size] = which;
      x[size] = values;
      perKm[size++] = timesKm;
    }
  }

  private GroupColumns columnsOf(int group) {
    int i = frame.groups.example[group];
    GroupColumns columns = new GroupColumns();
    Family family = frame.families.get(frame.family[i]);
    int b = familyBase[family.index()];
    int begin = frame.start[i];
    int d = frame.start[i + 1] - begin;
    double[] mean = new double[d];
    double[] apart = new double[d];
    for (int k = 0; k < d; k++) {
      mean[k] = frame.pattern(i, begin + k);
      apart[k] = family.cases().get(frame.caseOf[begin + k]).forward() ? 0.5 : -0.5;
    }
    columns.add(b, mean, false);
    columns.add(bias, apart, false);
    if (frame.connections[i] > 0) {
      columns.add(b + 1, times(mean, frame.connections[i]), false);
    }
    if (frame.splices[i] > 0) {
      columns.add(b + 2, times(mean, frame.splices[i]), false);
    }
    if (frame.cable[i] >= 0) {
      columns.add(cableBase[frame.cable[i]], mean, false);
    }
    for (int w = 0; w < family.wavelengths(); w++) {
      double[] alone = new double[d];
      boolean any = false;
      for (int k = 0; k < d; k++) {
        boolean own = family.cases().get(frame.caseOf[begin + k]).wavelengthAt() == w;
        alone[k] = own ? 1 : 0;
        any |= own;
      }
      if (!any) {
        continue;
      }
      columns.add(b + 3 + 4 * w, alone, false);
      columns.add(b + 4 + 4 * w, alone, true);
      if (frame.connections[i] > 0) {
        columns.add(b + 5 + 4 * w, times(alone, frame.connections[i]), false);
      }
      if (frame.splices[i] > 0) {
        columns.add(b + 6 + 4 * w, times(alone, frame.splices[i]), false);
      }
      if (frame.cable[i] >= 0) {
        columns.add(cableBase[frame.cable[i]] + 1 + 2 * w, alone, false);
        columns.add(cableBase[frame.cable[i]] + 2 + 2 * w, alone, true);
      }
    }
    if (frame.placeA[i] >= 0) {
      columns.add(placeBase + frame.placeA[i], mean, false);
    }
    if (frame.placeB[i] >= 0) {
      columns.add(placeBase + frame.placeB[i], mean, false);
    }
    columns.information = scatter.algebra(i).information();
    return columns;
  }

  private static double[] times(double[] pattern, double times) {
    double[] result = new double[pattern.length];
    for (int k = 0; k < result.length; k++) {
      result[k] = pattern[k] * times;
    }
    return result;
  }

  /** The border columns that one fibre touches, effects included. */
  final class Touch {
    int[] column = new int[32];
    double[][] x = new double[32][Family.MOST_CASES];
    int size;

    void of(int i) {
      size = 0;
      GroupColumns shared = groups[frame.groups.of[i]];
      int d = frame.start[i + 1] - frame.start[i];
      for (int t = 0; t < shared.size; t++) {
        double[] row = next(shared.column[t]);
        double h = shared.perKm[t] ? frame.km[i] : 1;
        for (int k = 0; k < d; k++) {
          row[k] = h * shared.x[t][k];
        }
      }
      for (int e = 0; e < effects.size(); e++) {
        boolean any = false;
        double[] values = next(base + e);
        for (int k = 0; k < d; k++) {
          values[k] = effects.get(e).at(frame, i, frame.start[i] + k);
          any |= values[k] != 0;
        }
        if (!any) {
          size--;
        }
      }
    }

    private double[] next(int which) {
      if (size == column.length) {
        column = Arrays.copyOf(column, size * 2);
        x = Arrays.copyOf(x, size * 2);
        for (int k = size; k < x.length; k++) {
          x[k] = new double[Family.MOST_CASES];
        }
      }
      column[size] = which;
      return x[size++];
    }
  }

  /** Takes a border column, what it adds to each of a fibre's readings, and whether by the km. */
  interface ColumnTaker {
    void take(int column, double[] x, boolean timesKm);
  }

  /** Hands over the border columns that a fibre touches, effects left out. */
  void eachColumn(int fibre, ColumnTaker taker) {
    GroupColumns own = groups[frame.groups.of[fibre]];
    for (int t = 0; t < own.size; t++) {
      taker.take(own.column[t], own.x[t], own.perKm[t]);
    }
  }

  /** Builds the information once, finds the mode, and the residuals and scores there. */
  private void solve(double toDb) {
    findParts(toDb);
    gradient(new double[levelCount], new double[border]);
  }

  /** Builds the information once and finds the mode. */
  private void findParts(double toDb) {
    for (int g = 0; g < groups.length; g++) {
      groups[g] = columnsOf(g);
    }
    findEffects();
    assemble();
    double[] levelStep = new double[levelCount];
    double[] partStep = new double[border];
    for (int round = 0; round < MOST_ROUNDS; round++) {
      gradient(levelStep, partStep);
      if (step(levelStep, partStep) < toDb) {
        break;
      }
    }
  }

  /** Readings that each effect touches, and what it adds to them. */
  private void findEffects() {
    for (int e = 0; e < effects.size(); e++) {
      int[] readings = new int[16];
      double[] values = new double[16];
      int count = 0;
      for (int i = 0; i < frame.fibres(); i++) {
        for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
          double value = effects.get(e).at(frame, i, r);
          if (value == 0) {
            continue;
          }
          if (count == readings.length) {
            readings = Arrays.copyOf(readings, count * 2);
            values = Arrays.copyOf(values, count * 2);
          }
          readings[count] = r;
          values[count++] = value;
        }
      }
      effectReadings[e] = Arrays.copyOf(readings, count);
      effectValues[e] = Arrays.copyOf(values, count);
    }
  }

  private void assemble() {
    double[][] own = new double[blocks.length][];
    for (int b = 0; b < blocks.length; b++) {
      own[b] = new double[blocks[b].length * blocks[b].length];
    }
    for (int z = 0; z < priorOfZero.length; z++) {
      int[] zeroLevels = frame.levelsOfZero[z];
      int k = zeroLevels.length;
      for (int i = 0; i < k; i++) {
        int block = blockOf[zeroLevels[i]];
        int width = blocks[block].length;
        for (int j = 0; j < k; j++) {
          own[block][placeInBlock[zeroLevels[i]] * width + placeInBlock[zeroLevels[j]]] +=
              priorOfZero[z][i * k + j];
        }
      }
    }
    findTouched();
    double[][] across = new double[levelCount][];
    for (int l = 0; l < levelCount; l++) {
      across[l] = new double[touched[blockOf[l]].length];
    }
    double[] corner = new double[border * border];
    for (int b = 0; b < border; b++) {
      corner[b * border + b] = borderPrecision[b];
    }
    double[] once = new double[groups.length];
    double[] byKm = new double[groups.length];
    double[] bySquare = new double[groups.length];
    for (int i = 0; i < frame.fibres(); i++) {
      int g = frame.groups.of[i];
      double per = 1 / (frame.scale[i] * frame.scale[i]);
      once[g] += per;
      byKm[g] += per * frame.km[i];
      bySquare[g] += per * frame.km[i] * frame.km[i];
    }
    for (int g = 0; g < groups.length; g++) {
      addGroup(g, once[g], byKm[g], bySquare[g], own, across, corner);
    }
    addEffects(across, corner);
    eliminate(own, across, corner);
  }

  /** Finds the border columns that each block shares readings with. */
  private void findTouched() {
    int words = (border + 63) / 64;
    long[] bits = new long[blocks.length * words];
    for (int g = 0; g < groups.length; g++) {
      int i = frame.groups.example[g];
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        int at = blockOf[frame.levelOf[r]] * words;
        for (int t = 0; t < groups[g].size; t++) {
          int column = groups[g].column[t];
          bits[at + (column >> 6)] |= 1L << column;
        }
      }
    }
    for (int e = 0; e < effects.size(); e++) {
      int column = base + e;
      for (int reading : effectReadings[e]) {
        int i = frame.fibreOf[reading];
        for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
          bits[blockOf[frame.levelOf[r]] * words + (column >> 6)] |= 1L << column;
        }
      }
    }
    touched = new int[blocks.length][];
    for (int b = 0; b < blocks.length; b++) {
      touched[b] =
          BitSet.valueOf(Arrays.copyOfRange(bits, b * words, (b + 1) * words)).stream().toArray();
    }
  }

  /** Place of a border column among those that a level's block touches. */
  private int touchedAt(int level, int column) {
    return Arrays.binarySearch(touched[blockOf[level]], column);
  }

  private void addGroup(
      int g,
      double once,
      double byKm,
      double bySquare,
      double[][] own,
      double[][] across,
      double[] corner) {
    GroupColumns columns = groups[g];
    int begin = frame.start[frame.groups.example[g]];
    double[] information = columns.information;
    int d = (int) Math.round(Math.sqrt(information.length));
    for (int j = 0; j < d; j++) {
      int level = frame.levelOf[begin + j];
      int block = blockOf[level];
      int width = blocks[block].length;
      for (int k = 0; k < d; k++) {
        int other = frame.levelOf[begin + k];
        if (blockOf[other] == block) {
          own[block][placeInBlock[level] * width + placeInBlock[other]] +=
              once * information[j * d + k];
        }
      }
    }
    double[] weighted = new double[d];
    for (int t = 0; t < columns.size; t++) {
      double level = columns.perKm[t] ? byKm : once;
      for (int j = 0; j < d; j++) {
        double sum = 0;
        for (int k = 0; k < d; k++) {
          sum += information[j * d + k] * columns.x[t][k];
        }
        weighted[j] = sum;
        int to = frame.levelOf[begin + j];
        across[to][touchedAt(to, columns.column[t])] += level * sum;
      }
      for (int u = 0; u <= t; u++) {
        double sum = 0;
        for (int j = 0; j < d; j++) {
          sum += weighted[j] * columns.x[u][j];
        }
        sum *= columns.perKm[t] == columns.perKm[u] ? columns.perKm[t] ? bySquare : once : byKm;
        corner[columns.column[t] * border + columns.column[u]] += sum;
        if (columns.column[t] != columns.column[u]) {
          corner[columns.column[u] * border + columns.column[t]] += sum;
        }
      }
    }
  }

  /** What the effects share with levels, border columns and one another. */
  private void addEffects(double[][] across, double[] corner) {
    double[] dense = new double[frame.readings()];
    for (int e = 0; e < effects.size(); e++) {
      int column = base + e;
      int[] readings = effectReadings[e];
      for (int at = 0; at < readings.length; at++) {
        dense[readings[at]] = effectValues[e][at];
      }
      int last = -1;
      for (int r : readings) {
        int i = frame.fibreOf[r];
        if (i == last) {
          continue;
        }
        last = i;
        int begin = frame.start[i];
        int d = frame.start[i + 1] - begin;
        GroupColumns columns = groups[frame.groups.of[i]];
        double per = 1 / (frame.scale[i] * frame.scale[i]);
        double[] weighted = new double[d];
        for (int j = 0; j < d; j++) {
          double sum = 0;
          for (int k = 0; k < d; k++) {
            sum += columns.information[j * d + k] * dense[begin + k];
          }
          weighted[j] = per * sum;
          int to = frame.levelOf[begin + j];
          across[to][touchedAt(to, column)] += weighted[j];
          corner[column * border + column] += weighted[j] * dense[begin + j];
        }
        for (int t = 0; t < columns.size; t++) {
          double sum = 0;
          for (int j = 0; j < d; j++) {
            sum += weighted[j] * columns.x[t][j];
          }
          sum *= columns.perKm[t] ? frame.km[i] : 1;
          corner[column * border + columns.column[t]] += sum;
          corner[columns.column[t] * border + column] += sum;
        }
        for (int f = 0; f < e; f++) {
          double sum = 0;
          for (int j = 0; j < d; j++) {
            sum += weighted[j] * effects.get(f).at(frame, i, begin + j);
          }
          corner[column * border + base + f] += sum;
          corner[(base + f) * border + column] += sum;
        }
      }
      for (int r : readings) {
        dense[r] = 0;
      }
    }
  }

  private void eliminate(double[][] own, double[][] across, double[] corner) {
    solved = new double[blocks.length][];
    IntStream.range(0, blocks.length).parallel().forEach(b -> solveBlock(b, own[b], across));
    for (int b = 0; b < blocks.length; b++) {
      int k = blocks[b].length;
      int m = touched[b].length;
      double[] y = solved[b];
      for (int t = 0; t < m; t++) {
        int row = touched[b][t] * border;
        for (int u = 0; u < m; u++) {
          double sum = 0;
          for (int j = 0; j < k; j++) {
            sum += across[blocks[b][j]][t] * y[j * m + u];
          }
          corner[row + touched[b][u]] -= sum;
        }
      }
    }
    borderInverse = inverted(corner, border);
  }

  private void solveBlock(int b, double[] own, double[][] across) {
    int k = blocks[b].length;
    int m = touched[b].length;
    inverse[b] = inverted(own, k);
    double[] y = new double[k * m];
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        double times = inverse[b][i * k + j];
        double[] from = across[blocks[b][j]];
        for (int t = 0; t < m; t++) {
          y[i * m + t] += times * from[t];
        }
      }
    }
    solved[b] = y;
  }

  private static double[] inverted(double[] values, int n) {
    DMatrixRMaj matrix = DMatrixRMaj.wrap(n, n, values);
    DMatrixRMaj result = new DMatrixRMaj(n, n);
    if (!CommonOps_DDRM.invertSPD(matrix, result) && !CommonOps_DDRM.invert(matrix, result)) {
      throw new IllegalStateException("The information of a proper prior cannot be singular");
    }
    return result.data;
  }

  /** Residuals and scores at the present estimate; their sums by level and border column. */
  private void gradient(double[] byLevel, double[] byPart) {
    Arrays.fill(byLevel, 0);
    Arrays.fill(byPart, 0);
    System.arraycopy(frame.excess, 0, residual, 0, residual.length);
    for (int e = 0; e < effects.size(); e++) {
      for (int at = 0; at < effectReadings[e].length; at++) {
        residual[effectReadings[e][at]] -= parts[base + e] * effectValues[e][at];
      }
    }
    double[][] fixed = new double[groups.length][];
    double[][] perKm = new double[groups.length][];
    double[][] sums = new double[groups.length][];
    double[][] sumsKm = new double[groups.length][];
    for (int g = 0; g < groups.length; g++) {
      GroupColumns columns = groups[g];
      int begin = frame.start[frame.groups.example[g]];
      int d = columns.x[0].length;
      fixed[g] = new double[d];
      perKm[g] = new double[d];
      sums[g] = new double[d];
      sumsKm[g] = new double[d];
      for (int k = 0; k < d; k++) {
        fixed[g][k] = levels[frame.levelOf[begin + k]];
      }
      for (int t = 0; t < columns.size; t++) {
        double[] to = columns.perKm[t] ? perKm[g] : fixed[g];
        for (int k = 0; k < d; k++) {
          to[k] += parts[columns.column[t]] * columns.x[t][k];
        }
      }
    }
    int chunks = (frame.fibres() + CHUNK - 1) / CHUNK;
    IntStream.range(0, chunks)
        .parallel()
        .forEach(c -> score(c * CHUNK, Math.min(frame.fibres(), (c + 1) * CHUNK), fixed, perKm));
    for (int i = 0; i < frame.fibres(); i++) {
      int g = frame.groups.of[i];
      int begin = frame.start[i];
      double km = frame.km[i];
      for (int k = 0; k < sums[g].length; k++) {
        double own = score[begin + k];
        sums[g][k] += own;
        sumsKm[g][k] += km * own;
      }
    }
    for (int g = 0; g < groups.length; g++) {
      GroupColumns columns = groups[g];
      int begin = frame.start[frame.groups.example[g]];
      int d = sums[g].length;
      for (int k = 0; k < d; k++) {
        byLevel[frame.levelOf[begin + k]] += sums[g][k];
      }
      for (int t = 0; t < columns.size; t++) {
        double[] from = columns.perKm[t] ? sumsKm[g] : sums[g];
        double sum = 0;
        for (int k = 0; k < d; k++) {
          sum += from[k] * columns.x[t][k];
        }
        byPart[columns.column[t]] += sum;
      }
    }
    for (int e = 0; e < effects.size(); e++) {
      for (int at = 0; at < effectReadings[e].length; at++) {
        byPart[base + e] += score[effectReadings[e][at]] * effectValues[e][at];
      }
    }
    for (int z = 0; z < priorOfZero.length; z++) {
      int[] own = frame.levelsOfZero[z];
      for (int i = 0; i < own.length; i++) {
        for (int j = 0; j < own.length; j++) {
          byLevel[own[i]] -= priorOfZero[z][i * own.length + j] * levels[own[j]];
        }
      }
    }
    for (int c = 0; c < border; c++) {
      byPart[c] -= borderPrecision[c] * parts[c];
    }
  }

  /** Residuals and scores of some fibres. */
  private void score(int from, int to, double[][] fixed, double[][] perKm) {
    double[] scaled = new double[Family.MOST_CASES];
    double[] out = new double[Family.MOST_CASES];
    for (int i = from; i < to; i++) {
      int g = frame.groups.of[i];
      int begin = frame.start[i];
      int d = frame.start[i + 1] - begin;
      double km = frame.km[i];
      double over = 1 / frame.scale[i];
      for (int k = 0; k < d; k++) {
        residual[begin + k] -= fixed[g][k] + km * perKm[g][k];
        scaled[k] = residual[begin + k] * over;
      }
      scatter.algebra(i).score(scaled, out);
      for (int k = 0; k < d; k++) {
        score[begin + k] = out[k] * over;
      }
    }
  }

  /** One step of Fisher scoring; the largest change of any part. */
  private double step(double[] byLevel, double[] byPart) {
    double[] change = new double[border];
    double[] levelChange = new double[levelCount];
    covarianceTimes(byLevel, byPart, levelChange, change);
    double largest = 0;
    for (int c = 0; c < border; c++) {
      parts[c] += change[c];
      largest = Math.max(largest, Math.abs(change[c]));
    }
    for (int l = 0; l < levelCount; l++) {
      levels[l] += levelChange[l];
      largest = Math.max(largest, Math.abs(levelChange[l]));
    }
    return largest;
  }

  /**
   * The posterior covariance of all parts times a vector, in proportion to levels and border.
   *
   * @param byLevel the vector's levels
   * @param byPart its border columns
   * @param levelsOut takes the product's levels
   * @param partsOut takes its border columns
   */
  void covarianceTimes(double[] byLevel, double[] byPart, double[] levelsOut, double[] partsOut) {
    double[] right = byPart.clone();
    for (int b = 0; b < blocks.length; b++) {
      int m = touched[b].length;
      for (int i = 0; i < blocks[b].length; i++) {
        double value = byLevel[blocks[b][i]];
        for (int t = 0; t < m; t++) {
          right[touched[b][t]] -= solved[b][i * m + t] * value;
        }
      }
    }
    for (int c = 0; c < border; c++) {
      double sum = 0;
      for (int e = 0; e < border; e++) {
        sum += borderInverse[c * border + e] * right[e];
      }
      partsOut[c] = sum;
    }
    for (int b = 0; b < blocks.length; b++) {
      int k = blocks[b].length;
      int m = touched[b].length;
      for (int i = 0; i < k; i++) {
        double sum = 0;
        for (int j = 0; j < k; j++) {
          sum += inverse[b][i * k + j] * byLevel[blocks[b][j]];
        }
        for (int t = 0; t < m; t++) {
          sum -= solved[b][i * m + t] * partsOut[touched[b][t]];
        }
        levelsOut[blocks[b][i]] = sum;
      }
    }
  }

  /** Posterior covariance of two levels; 0 across blocks save for what the border shares. */
  double covariance(int one, int two) {
    int b = blockOf[one];
    int c = blockOf[two];
    int m = touched[b].length;
    int n = touched[c].length;
    double sum = b == c ? inverse[b][placeInBlock[one] * blocks[b].length + placeInBlock[two]] : 0;
    for (int t = 0; t < m; t++) {
      double y = solved[b][placeInBlock[one] * m + t];
      if (y == 0) {
        continue;
      }
      double inner = 0;
      for (int u = 0; u < n; u++) {
        inner +=
            borderInverse[touched[b][t] * border + touched[c][u]]
                * solved[c][placeInBlock[two] * n + u];
      }
      sum += y * inner;
    }
    return sum;
  }

  /** Posterior covariance of a level and a border part. */
  double covarianceWithPart(int level, int part) {
    int b = blockOf[level];
    int m = touched[b].length;
    double sum = 0;
    for (int t = 0; t < m; t++) {
      sum -= solved[b][placeInBlock[level] * m + t] * borderInverse[touched[b][t] * border + part];
    }
    return sum;
  }

  /** Posterior variance of a border part. */
  double varianceOfPart(int part) {
    return borderInverse[part * border + part];
  }

  /** Posterior covariance of two border parts. */
  double covarianceOfParts(int one, int two) {
    return borderInverse[one * border + two];
  }

  /** A fibre's part, bounded for bad links, dB at the family's first wavelength or the like. */
  double ownPart(int fibre) {
    int d = frame.start[fibre + 1] - frame.start[fibre];
    double[] scaled = new double[d];
    for (int k = 0; k < d; k++) {
      scaled[k] = residual[frame.start[fibre] + k] / frame.scale[fibre];
    }
    return scatter.algebra(fibre).boundedPart(scaled) * frame.scale[fibre];
  }

  /** Information that a fibre's readings give, row by row, 1/dB². */
  double[] information(int fibre) {
    return scatter.algebra(fibre).information();
  }

  /** A fresh view of what fibres touch. */
  Touch touch() {
    return new Touch();
  }

  int borderSize() {
    return border;
  }

  /** Border columns that the blocks of some levels touch. */
  int[] columnsOf(int[] some) {
    boolean[] any = new boolean[border];
    int count = 0;
    for (int level : some) {
      for (int c : touched[blockOf[level]]) {
        count += any[c] ? 0 : 1;
        any[c] = true;
      }
    }
    int[] columns = new int[count];
    int at = 0;
    for (int c = 0; c < border; c++) {
      if (any[c]) {
        columns[at++] = c;
      }
    }
    return columns;
  }

  /** Posterior covariance of some levels and border columns together, row by row. */
  double[] covarianceOf(int[] some, int[] columns) {
    int k = some.length;
    int width = k + columns.length;
    double[] all = new double[width * width];
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        all[i * width + j] = covariance(some[i], some[j]);
      }
      for (int c = 0; c < columns.length; c++) {
        double value = covarianceWithPart(some[i], columns[c]);
        all[i * width + k + c] = value;
        all[(k + c) * width + i] = value;
      }
    }
    for (int c = 0; c < columns.length; c++) {
      for (int e = 0; e < columns.length; e++) {
        all[(k + c) * width + k + e] = borderInverse[columns[c] * border + columns[e]];
      }
    }
    return all;
  }
}
