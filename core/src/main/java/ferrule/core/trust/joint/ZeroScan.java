package ferrule.core.trust.joint;

import ferrule.core.plant.Link;
import java.util.Arrays;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;

/** The readings under one zero in the order of time, tried for steps and drifts. */
final class ZeroScan {

  private static final int MOST_LEVELS = 64;

  private final JointFit fit;
  private final Frame frame;
  private final int zero;
  private final int[] fibres;

  /** Readings under the zero, late ones first, and the fibre of each. */
  private final int[] readings;

  private final int[] fibreOf;

  /** Place of that fibre in the list of the zero's fibres. */
  private final int[] fibreAt;

  /**
   * Estimated parts that the fibres touch: levels, the zero's own first, then those of other zeros
   * that a fibre was read under too; then border columns.
   */
  private final int[] levels;

  private final int[] columns;
  private final int width;
  private final double[] covariance;

  /** Information that each reading shares with each part, row by row. */
  private final double[] shared;

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
    Integer[] order = new Integer[count];
    int[] found = new int[count];
    int[] owner = new int[count];
    int[] place = new int[count];
    int at = 0;
    for (int f = 0; f < fibres.length; f++) {
      int i = fibres[f];
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        if (frame.zeroOf(r) == zero) {
          order[at] = at;
          found[at] = r;
          place[at] = f;
          owner[at++] = i;
        }
      }
    }
    Arrays.sort(
        order,
        (a, b) -> {
          int late = Double.compare(frame.seconds[found[b]], frame.seconds[found[a]]);
          return late != 0 ? late : Integer.compare(b, a);
        });
    this.readings = new int[count];
    this.fibreOf = new int[count];
    this.fibreAt = new int[count];
    for (int k = 0; k < count; k++) {
      readings[k] = found[order[k]];
      fibreOf[k] = owner[order[k]];
      fibreAt[k] = place[order[k]];
    }
    this.levels = levelsOf(zero, fibres);
    this.columns = fit.columnsOf(levels);
    this.width = levels.length + columns.length;
    this.covariance = fit.covarianceOf(levels, columns);
    this.shared = new double[count * width];
    fillShared();
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

  private void fillShared() {
    int[] placeOfColumn = new int[fit.borderSize()];
    Arrays.fill(placeOfColumn, -1);
    for (int c = 0; c < columns.length; c++) {
      placeOfColumn[columns[c]] = levels.length + c;
    }
    int[] placeOfLevel = new int[frame.levels.size()];
    Arrays.fill(placeOfLevel, -1);
    for (int l = 0; l < levels.length; l++) {
      placeOfLevel[levels[l]] = l;
    }
    JointFit.Touch touch = fit.touch();
    int last = -1;
    for (int k = 0; k < readings.length; k++) {
      int i = fibreOf[k];
      if (i != last) {
        touch.of(i);
        last = i;
      }
      int begin = frame.start[i];
      int d = frame.start[i + 1] - begin;
      double[] information = fit.information(i);
      double per = 1 / (frame.scale[i] * frame.scale[i]);
      int row = readings[k] - begin;
      for (int j = 0; j < d; j++) {
        double both = per * information[row * d + j];
        int level = placeOfLevel[frame.levelOf[begin + j]];
        if (level >= 0) {
          shared[k * width + level] += both;
        }
        for (int t = 0; t < touch.size; t++) {
          int column = placeOfColumn[touch.column[t]];
          if (column >= 0) {
            shared[k * width + column] += both * touch.x[t][j];
          }
        }
      }
    }
  }

  /** Number of distinct times. */
  int moments() {
    int count = readings.length == 0 ? 0 : 1;
    for (int k = 1; k < readings.length; k++) {
      count += frame.seconds[readings[k]] != frame.seconds[readings[k - 1]] ? 1 : 0;
    }
    return count;
  }

  private double explained(double[] g) {
    double sum = 0;
    for (int i = 0; i < width; i++) {
      if (g[i] == 0) {
        continue;
      }
      double inner = 0;
      for (int j = 0; j < width; j++) {
        inner += covariance[i * width + j] * g[j];
      }
      sum += g[i] * inner;
    }
    return sum;
  }

  /** Information of an effect on all readings of the fibre that the reading belongs to. */
  private double with(int i, int row, double[] x) {
    int d = frame.start[i + 1] - frame.start[i];
    double[] information = fit.information(i);
    double sum = 0;
    for (int j = 0; j < d; j++) {
      sum += information[row * d + j] * x[j];
    }
    return sum / (frame.scale[i] * frame.scale[i]);
  }

  /** The step that fits best, {@code logChance} the bare chance within this series. */
  Optional<Suspect> largestStep(Part part, int fewest) {
    double[] x = new double[fibres.length * Family.MOST_CASES];
    double[] g = new double[width];
    double score = 0;
    double h = 0;
    int total = 0;
    boolean[] counted = new boolean[fibres.length];
    for (int k = 0; k < readings.length; k++) {
      if (inPart(part, readings[k]) && !counted[fibreAt[k]]) {
        counted[fibreAt[k]] = true;
        total++;
      }
    }
    Arrays.fill(counted, false);
    int after = 0;
    int links = frame.links(fibres);
    Set<Link> linksAfter = Collections.newSetFromMap(new IdentityHashMap<>());
    double best = 0;
    Suspect found = null;
    int previous = -1;
    for (int k = 0; k < readings.length; k++) {
      int r = readings[k];
      if (!inPart(part, r)) {
        continue;
      }
      int i = fibreOf[k];
      boolean boundary =
          previous >= 0
              && fibreOf[previous] != i
              && frame.seconds[r] < frame.seconds[readings[previous]];
      if (boundary
          && after >= fewest
          && total - after >= fewest
          && linksAfter.size() >= Search.FEWEST_LINKS
          && links - linksAfter.size() >= Search.FEWEST_LINKS) {
        double information = h - explained(g);
        if (information > 1e-6) {
          double t = score / Math.sqrt(information);
          if (Math.abs(t) > best) {
            best = Math.abs(t);
            found =
                new Suspect(
                    new Effect.Step(zero, part, frame.seconds[readings[previous]]),
                    score / information,
                    1 / Math.sqrt(information),
                    0,
                    after);
          }
        }
      }
      int begin = frame.start[i];
      int d = frame.start[i + 1] - begin;
      int row = r - begin;
      int local = fibreAt[k] * Family.MOST_CASES;
      double per = 1 / (frame.scale[i] * frame.scale[i]);
      double[] information = fit.information(i);
      for (int j = 0; j < d; j++) {
        h += 2 * per * information[row * d + j] * x[local + j];
      }
      h += per * information[row * d + row];
      x[local + row] = 1;
      score += fit.score[r];
      for (int c = 0; c < width; c++) {
        g[c] += shared[k * width + c];
      }
      if (!counted[fibreAt[k]]) {
        counted[fibreAt[k]] = true;
        linksAfter.add(frame.linkOf(i));
        after++;
      }
      previous = k;
    }
    if (found == null) {
      return Optional.empty();
    }
    return Optional.of(
        new Suspect(
            found.effect(),
            found.sizeDb(),
            found.sdDb(),
            Looks.logLargestCut(best, total, fewest),
            found.fibres()));
  }

  private boolean inPart(Part part, int r) {
    return part.holds(frame.levels.get(frame.levelOf[r]));
  }

  /** A drift from the first to the last reading. */
  Suspect drift(Part part, Effect.Course course) {
    double from = frame.seconds[readings[readings.length - 1]];
    double to = frame.seconds[readings[0]];
    return tried(new Effect.Drift(zero, part, from, to, course));
  }

  private Suspect tried(Effect effect) {
    double[] g = new double[width];
    double score = 0;
    double h = 0;
    double[] x = new double[Family.MOST_CASES];
    int touched = 0;
    for (int k = 0; k < readings.length; k++) {
      int i = fibreOf[k];
      int r = readings[k];
      double own = effect.at(frame, i, r);
      if (own == 0) {
        continue;
      }
      touched++;
      score += own * fit.score[r];
      int begin = frame.start[i];
      int d = frame.start[i + 1] - begin;
      for (int j = 0; j < d; j++) {
        x[j] = effect.at(frame, i, begin + j);
      }
      h += own * with(i, r - begin, x);
      for (int c = 0; c < width; c++) {
        g[c] += own * shared[k * width + c];
      }
    }
    double information = Math.max(h - explained(g), 1e-9);
    return new Suspect(
        effect,
        score / information,
        1 / Math.sqrt(information),
        0,
        Math.min(touched, fibres.length));
  }
}
