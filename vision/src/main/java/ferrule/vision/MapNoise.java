package ferrule.vision;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;

/** How much a map of a face varies where nothing is, by distance from the centre. */
final class MapNoise {
  private static final double FLOOR = 0.0015;

  /** Where one flaw can fill a ring the noise further out bounds it, µm, and by what factor. */
  private static final double MIDDLE_UM = 3;

  private static final double BEYOND_UM = 7;

  private static final double WIDER = 2.5;

  private MapNoise() {}

  /**
   * Robust spread by ring, each the largest of itself and its neighbours, so that one ring's flaws
   * hide nothing. About the centre, where one flaw can fill a ring, it is no more than a few times
   * that further out.
   *
   * @param rings width of a ring in finest rings
   */
  static double[] byRing(FaceFrame frame, float[] map, int rings) {
    double[] own = frame.medians(map, rings, 12, true);
    int bins = own.length;
    double fall = Double.NaN;
    for (int b = bins - 1; b >= 0; b--) {
      fall = Double.isNaN(own[b]) ? fall : own[b];
    }
    for (int b = 0; b < bins; b++) {
      // A ring with little in the picture shows its own noise at one side only.
      boolean part = b > 0 && frame.seen(b, rings) < 0.5;
      fall = Double.isNaN(own[b]) ? fall : part ? Math.max(fall, own[b]) : own[b];
      own[b] = Math.max(FLOOR, OrderStats.SD_OVER_MAD * fall);
    }
    double[] wide = new double[bins];
    for (int b = 0; b < bins; b++) {
      wide[b] = Math.max(own[b], Math.max(own[Math.max(0, b - 1)], own[Math.min(bins - 1, b + 1)]));
    }
    int to = (int) (MIDDLE_UM / frame.ringUm(rings));
    int from = (int) (BEYOND_UM / frame.ringUm(rings));
    if (to > 0 && 2 * from < bins) {
      double[] beyond = Arrays.copyOfRange(own, from, 2 * from);
      double most = WIDER * OrderStats.quantileInPlace(beyond, 0.5);
      for (int b = 0; b < to; b++) {
        wide[b] = Math.min(wide[b], most);
      }
    }
    return wide;
  }
}
