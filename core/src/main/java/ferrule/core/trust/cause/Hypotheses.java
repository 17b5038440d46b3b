package ferrule.core.trust.cause;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.GlassModel;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntToDoubleFunction;

/**
 * How each cause would show in the readings of one set of directions and wavelengths: a mixture of
 * normal laws. A cause has patterns over wavelengths and directions, each of a size that follows a
 * law of its own (assumed); the sizes are integrated out over cells in equal steps of their
 * logarithm, each cell a normal law as wide as the cell. Honest scatter of the job is in each.
 *
 * <p>Patterns, single-mode: offset {@code 1/w^2} and tilt {@code (w/lambda)^2} (Marcuse 1977); a
 * gap by the cavity of its faces and the spreading of the beam, another gap at each mating; dirt
 * equal at all wavelengths; bends from {@code 1310 = 0.003 x 1550 nm} (a turn of 10 mm, Marcuse
 * 1976 with Schermer and Cole 2007, from memory) to {@code 0.7 x} (a crush, assumed). Multimode:
 * equal at both wavelengths, a bend somewhat more at the longer one; a larger core into a smaller
 * one loses 2 to 4 dB in one direction (common practice; by theory up to 4.7 dB).
 */
final class Hypotheses {

  /** One normal law of a mixture. */
  record Part(double logWeight, Normal normal, double extraM) {}

  private static final double LEAST_DB = 0.04;
  private static final double MOST_DB = 30;
  private static final double LEAST_EXTRA_M = 10;
  private static final double MOST_EXTRA_M = 100_000;
  private static final double STEP = Math.log(1.25);

  /** Standard deviation of a cell, of its size: cells overlap without ripple. */
  private static final double CELL = STEP / 2;

  /** Share of fibres in the upper tail of ordinary ones; tuned on simulated jobs. */
  private static final double TAIL = 0.10;

  private static final double TAIL_MULTIMODE = 0.05;

  /** Mean of that tail, in spreads of the fibre's own part. */
  private static final double TAIL_SDS = 0.7;

  private static final double TAIL_SDS_MULTIMODE = 0.6;
  private static final double NEGLIGIBLE = 1e-7;

  /** Gaps from 1 to 60 µm: how many pairs are tried, and what lies between them, dB. */
  private static final int GAPS = 300;

  private static final double GAP_ROUGH_DB = 0.03;

  /** Two directions, or one of them. */
  private enum Way {
    BOTH,
    FORWARD,
    BACK;

    boolean holds(boolean forward) {
      return this == BOTH || (this == FORWARD) == forward;
    }
  }

  private final FibreKind kind;
  private final int[] nm;
  private final boolean[] forward;
  private final double[][] honest;
  private final double partSdDb;
  private final int d;
  private final Map<LossCause, List<Part>> parts = new EnumMap<>(LossCause.class);

  /**
   * @param kind of fibre
   * @param nm wavelength of each reading
   * @param forward whether each was read A-B
   * @param honest covariance of honest readings, dB²
   * @param partSdDb spread of the fibre's own part, dB
   */
  Hypotheses(FibreKind kind, int[] nm, boolean[] forward, double[][] honest, double partSdDb) {
    this.kind = kind;
    this.nm = nm;
    this.forward = forward;
    this.honest = honest;
    this.partSdDb = partSdDb;
    this.d = nm.length;
    for (LossCause cause : LossCause.values()) {
      parts.put(cause, new ArrayList<>());
    }
    ordinary();
    dirt();
    misaligned();
    gap();
    bend();
    longer();
    cores();
    polish();
    oneReading();
    unlike();
  }

  /** The mixture of a cause; empty where it depends on the fibre or is not met on its kind. */
  List<Part> of(LossCause cause) {
    return parts.getOrDefault(cause, List.of());
  }

  private boolean singleMode() {
    return kind == FibreKind.SINGLE_MODE;
  }

  private double offset(int nanometres) {
    return singleMode() ? SingleModeCoupling.offsetFactorFrom1310(new Wavelength(nanometres)) : 1;
  }

  private double tilt(int nanometres) {
    return singleMode() ? SingleModeCoupling.tiltFactorFrom1310(new Wavelength(nanometres)) : 1;
  }

  // ---- causes

  /** A normal core, and an upper tail that falls off exponentially. */
  private void ordinary() {
    double tail = singleMode() ? TAIL : TAIL_MULTIMODE;
    double mean = (singleMode() ? TAIL_SDS : TAIL_SDS_MULTIMODE) * partSdDb;
    add(LossCause.ORDINARY, 1 - tail, new double[d], honest);
    for (double size = LEAST_DB; size < MOST_DB; size *= Math.exp(STEP)) {
      double weight = tail * size / mean * Math.exp(-size / mean) * STEP;
      cell(LossCause.ORDINARY, 0.5 * weight, size, Way.BOTH, this::offset, 0, 0);
      cell(LossCause.ORDINARY, 0.5 * weight, size, Way.BOTH, this::tilt, 0, 0);
    }
  }

  private void dirt() {
    sizes(LossCause.FILM, 1, 0.35, 0.75, Way.BOTH, x -> 1, 0, 0.03);
    for (Way way : List.of(Way.FORWARD, Way.BACK)) {
      sizes(LossCause.CORD_DIRT, 0.30, 0.35, 0.75, way, x -> 1, 0, 0.015);
      if (singleMode()) {
        sizes(LossCause.CORD_DIRT, 0.10, 0.35, 0.75, way, this::tilt, 0, 0.015);
        sizes(LossCause.CORD_DIRT, 0.10, 0.35, 0.75, way, this::offset, 0, 0.015);
      } else {
        sizes(LossCause.CORD_DIRT, 0.20, 0.35, 0.75, way, x -> 1, 0, 0.03);
      }
    }
  }

  /**
   * An offset adds to the eccentricities of the cord plugs as a vector: with reference plugs (0.18
   * µm an axis, own fit to grade limits) the directions differ by 0.16 dB times the root of the
   * loss; inside the link they do not. A tilt likewise by 0.06.
   */
  private void misaligned() {
    if (!singleMode()) {
      for (double longer : new double[] {0.93, 0.97, 1.01}) {
        IntToDoubleFunction pattern = x -> x < 1000 ? 1 : longer;
        sizes(LossCause.OFFSET, 1 / 3.0, 0.40, 0.7, Way.BOTH, pattern, 0, 0.015);
      }
      return;
    }
    sizes(LossCause.OFFSET, 0.6, 0.45, 0.7, Way.BOTH, this::offset, 0.16, 0);
    sizes(LossCause.OFFSET, 0.4, 0.45, 0.7, Way.BOTH, this::offset, 0, 0);
    sizes(LossCause.TILT, 0.7, 0.45, 0.7, Way.BOTH, this::tilt, 0.06, 0);
    sizes(LossCause.TILT, 0.3, 0.45, 0.7, Way.BOTH, this::tilt, 0, 0);
  }

  private void gap() {
    double[][] wide = copy(honest);
    double rough = singleMode() ? GAP_ROUGH_DB : GAP_ROUGH_DB / 3;
    for (int k = 0; k < d; k++) {
      wide[k][k] += rough * rough;
    }
    for (int g = 0; g < GAPS; g++) {
      double[] there = gapDb(g, 0.7548776662466927);
      double[] back = gapDb(g, 0.5698402909980532);
      add(LossCause.GAP, 0.6 / GAPS, eachWay(there, back), wide);
      if (g % 3 == 0) {
        add(LossCause.GAP, 0.6 / GAPS, eachWay(there, new double[d]), wide);
        add(LossCause.GAP, 0.6 / GAPS, eachWay(new double[d], there), wide);
      }
    }
  }

  /**
   * Loss of one of the gaps tried at every wavelength, dB. The gaps fill the range from 1 to 60 µm
   * evenly in their logarithm by multiples of an irrational number, another one for each direction
   * (the additive recurrence of the plastic number).
   */
  private double[] gapDb(int which, double step) {
    double um = Math.pow(60, (0.5 + which * step) % 1);
    double[] loss = new double[d];
    for (int k = 0; k < d; k++) {
      Wavelength wavelength = new Wavelength(nm[k]);
      // Multimode: spreading by the aperture over half a core, first order, uniform launch; an LED
      // some 50 nm wide.
      loss[k] =
          singleMode()
              ? SingleModeCoupling.gapReflection(um, wavelength, 0).value()
                  + SingleModeCoupling.gapSpreading(
                          um, SingleModeCoupling.modeFieldUm(wavelength), wavelength)
                      .value()
              : SingleModeCoupling.gapReflection(um, wavelength, 50).value() + 0.0086 * um;
    }
    return loss;
  }

  private double[] eachWay(double[] there, double[] back) {
    double[] mean = new double[d];
    for (int k = 0; k < d; k++) {
      mean[k] = forward[k] ? there[k] : back[k];
    }
    return mean;
  }

  private void bend() {
    double[] ratios =
        singleMode() ? new double[] {0.003, 0.03, 0.2, 0.45, 0.7} : new double[] {0.6, 0.75, 0.9};
    double[] weights =
        singleMode() ? new double[] {0.45, 0.30, 0.08, 0.09, 0.08} : new double[] {0.3, 0.4, 0.3};
    int reference = singleMode() ? 1550 : 1300;
    double span = singleMode() ? 240 : 450;
    for (int r = 0; r < ratios.length; r++) {
      double steep = -Math.log(ratios[r]) / span;
      IntToDoubleFunction pattern = x -> Math.exp(steep * (x - reference));
      sizes(LossCause.BEND, 0.85 * weights[r], 0.45, 0.85, Way.BOTH, pattern, 0, 0.03);
      sizes(LossCause.BEND, 0.075 * weights[r], 0.45, 0.85, Way.FORWARD, pattern, 0, 0.03);
      sizes(LossCause.BEND, 0.075 * weights[r], 0.45, 0.85, Way.BACK, pattern, 0, 0.03);
    }
  }

  private void longer() {
    for (double extra = LEAST_EXTRA_M; extra < MOST_EXTRA_M; extra *= Math.exp(STEP)) {
      double[] mean = new double[d];
      for (int k = 0; k < d; k++) {
        mean[k] = extra / 1000 * GlassModel.dbPerKm(kind, new Wavelength(nm[k]));
      }
      add(
          LossCause.LONGER,
          logNormal(extra, singleMode() ? 400 : 120, 1.3),
          mean,
          along(honest, mean, CELL),
          extra);
    }
  }

  private void cores() {
    if (singleMode()) {
      return;
    }
    for (Way way : List.of(Way.FORWARD, Way.BACK)) {
      for (double longer : new double[] {1, 0.95, 0.9}) {
        sizes(LossCause.CORES, 1 / 6.0, 3, 0.35, way, x -> x < 1000 ? 1 : longer, 0, 0.015);
      }
    }
  }

  /** A beam tilted in air over a wedge, and two faces; an attenuator is flat. */
  private void polish() {
    if (singleMode()) {
      IntToDoubleFunction withFaces = x -> 0.8 * tilt(x) + 0.2;
      sizes(LossCause.POLISH, 0.4, 3.6, 0.25, Way.BOTH, this::tilt, 0.04, 0.01);
      sizes(LossCause.POLISH, 0.4, 3.6, 0.25, Way.BOTH, withFaces, 0.04, 0.01);
    }
    sizes(LossCause.POLISH, singleMode() ? 0.2 : 1, 5, 0.6, Way.BOTH, x -> 1, 0, 0.01);
  }

  /** More or less. */
  private void oneReading() {
    for (int k = 0; k < d; k++) {
      for (double size = LEAST_DB; size < MOST_DB; size *= Math.exp(STEP)) {
        for (int sign = -1; sign <= 1; sign += 2) {
          double[] mean = new double[d];
          mean[k] = sign * size;
          double share = (sign > 0 ? 0.8 : 0.2) * logNormal(size, 1, 0.9) / d;
          add(LossCause.ONE_READING, share, mean, along(honest, mean, CELL));
        }
      }
    }
  }

  private void unlike() {
    for (double wide : new double[] {0.3, 1, 3, 10, 40}) {
      double[][] covariance = copy(honest);
      for (int k = 0; k < d; k++) {
        covariance[k][k] += wide * wide;
      }
      add(LossCause.UNLIKE, 0.2, new double[d], covariance);
    }
  }

  // ---- mixtures

  /** Share of a log-normal law that falls into the cell about a size. */
  private static double logNormal(double size, double median, double sigma) {
    double z = Math.log(size / median) / sigma;
    return STEP / (sigma * Math.sqrt(2 * Math.PI)) * Math.exp(-z * z / 2);
  }

  private void sizes(
      LossCause cause,
      double weight,
      double medianDb,
      double sigma,
      Way way,
      IntToDoubleFunction pattern,
      double apartDb,
      double roughDb) {
    for (double size = LEAST_DB; size < MOST_DB; size *= Math.exp(STEP)) {
      double share = weight * logNormal(size, medianDb, sigma);
      cell(cause, share, size, way, pattern, apartDb, roughDb);
    }
  }

  /**
   * One cell of a cause's size.
   *
   * @param apartDb how far the two directions lie apart, dB for 1 dB of loss; grows as its root
   * @param roughDb how far each reading may lie off the pattern, of the size
   */
  private void cell(
      LossCause cause,
      double weight,
      double size,
      Way way,
      IntToDoubleFunction pattern,
      double apartDb,
      double roughDb) {
    double[] mean = new double[d];
    for (int k = 0; k < d; k++) {
      mean[k] = way.holds(forward[k]) ? size * pattern.applyAsDouble(nm[k]) : 0;
    }
    double[][] covariance = along(honest, mean, CELL);
    for (int j = 0; j < d; j++) {
      covariance[j][j] += roughDb * roughDb * mean[j] * mean[j];
      for (int k = 0; k < d; k++) {
        if (forward[j] == forward[k]) {
          covariance[j][k] += apartDb * apartDb * mean[j] * mean[k] / size;
        }
      }
    }
    add(cause, weight, mean, covariance);
  }

  private void add(LossCause cause, double weight, double[] mean, double[][] covariance) {
    add(cause, weight, mean, covariance, 0);
  }

  private void add(
      LossCause cause, double weight, double[] mean, double[][] covariance, double extraM) {
    if (weight > NEGLIGIBLE) {
      of(cause).add(new Part(Math.log(weight), new Normal(mean, covariance), extraM));
    }
  }

  /** A covariance with a spread along a pattern added. */
  private static double[][] along(double[][] covariance, double[] pattern, double times) {
    double[][] result = copy(covariance);
    for (int j = 0; j < pattern.length; j++) {
      for (int k = 0; k < pattern.length; k++) {
        result[j][k] += times * times * pattern[j] * pattern[k];
      }
    }
    return result;
  }

  private static double[][] copy(double[][] matrix) {
    double[][] result = new double[matrix.length][];
    for (int i = 0; i < matrix.length; i++) {
      result[i] = matrix[i].clone();
    }
    return result;
  }
}
