package ferrule.vision;

import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Scratches too thin or faint for an area: second derivatives across, summed along straight pieces
 * in twelve directions.
 */
final class LineFinder {
  private static final double LINE = 7;
  private static final int TURNS = 12;

  /** Length of a straight piece, µm. */
  private static final double PIECE_UM = 14;

  /**
   * Doublings of the sum along a piece: two to this power places make it up. Twice as many would
   * share their noise, through the blur, and tell no more.
   */
  private static final int DOUBLINGS = 3;

  /** One strong spot must not make a line. */
  private static final float CAP = 0.012f;

  /** How far the blurred rim of a defect reaches, µm. */
  private static final double RIM_UM = 1.5;

  /** Pieces of a line that lie no further apart are one line, µm. */
  private static final double GAP_UM = 5;

  private final FaceFrame frame;
  private final float[] rest;
  private final int[] owner;
  private final List<Flaw> flaws;

  /**
   * Begins a search.
   *
   * @param owner number of the flaw a pixel belongs to, from 1 on; written
   * @param flaws the flaws found so far; written
   */
  LineFinder(FaceFrame frame, float[] rest, int[] owner, List<Flaw> flaws) {
    this.frame = frame;
    this.rest = rest;
    this.owner = owner;
    this.flaws = flaws;
  }

  void find() {
    double sigma = Math.max(0.8, 0.7 / frame.um());
    float[] s = new Grey(frame.width(), frame.height(), rest).blurred(sigma).pixels();
    float[] best = strongest(s);
    int rings = frame.rings(Math.max(1.5, 2 * frame.um()));
    double[] noise = frame.medians(best, rings, 12, true);
    double fall = Arrays.stream(noise).filter(v -> v > 0).findFirst().orElse(1);
    for (int b = 0; b < noise.length; b++) {
      fall = noise[b] > 0 ? noise[b] : fall;
      noise[b] = Math.max(0.00005, 1.4826 * fall);
    }
    Patch.Grower grower = new Patch.Grower(frame, best, noise, rings);
    List<Patch> pieces = new ArrayList<>();
    for (int i = 0; i < best.length; i++) {
      if (frame.looked(i) && !grower.isTaken(i) && grower.isOver(i, LINE / 1.5)) {
        pieces.add(grower.from(i, LINE / 2.2));
      }
    }
    for (Patch piece : joined(pieces, best)) {
      add(piece, s, sigma);
    }
  }

  /** The strongest sum of all directions through each pixel, above 0 where a line is bright. */
  private float[] strongest(float[] s) {
    int width = frame.width();
    int height = frame.height();
    float[][][] bends = bends(s);
    float[][] sum = new float[height][width];
    float[][] turned = new float[height][width];
    float[][] high = new float[height][width];
    float[][] low = new float[height][width];
    for (int t = 0; t < TURNS / 2; t++) {
      double c = Math.cos(Math.PI * t / TURNS);
      double d = Math.sin(Math.PI * t / TURNS);
      for (int y = 0; y < height; y++) {
        across(sum[y], turned[y], bends[y], (float) c, (float) d);
      }
      alongPiece(sum, c, d);
      alongPiece(turned, -d, c);
      for (int y = 0; y < height; y++) {
        widen(high[y], low[y], sum[y], turned[y]);
      }
    }
    float[] best = new float[s.length];
    for (int y = 0; y < height; y++) {
      stronger(high[y], low[y]);
      System.arraycopy(high[y], 0, best, y * width, width);
    }
    return best;
  }

  /** Second derivatives across a direction, and across the one at a right angle to it. */
  private static void across(float[] to, float[] turned, float[][] bends, float c, float d) {
    float[] xx = bends[0];
    float[] yy = bends[1];
    float[] xy = bends[2];
    for (int i = 0; i < to.length; i++) {
      float one = d * d * xx[i] + c * c * yy[i] - 2 * c * d * xy[i];
      to[i] = one;
      turned[i] = xx[i] + yy[i] - one;
    }
  }

  /**
   * Puts the stronger of two sums in the place of the first, as a mean, above 0 where a line is
   * bright: its second derivative is negative. Without a branch, which noise would make a guess.
   */
  private static void stronger(float[] high, float[] low) {
    float share = -0.5f / (1 << DOUBLINGS);
    for (int i = 0; i < high.length; i++) {
      float both = high[i] + low[i];
      float sign = both / Math.max(Float.MIN_NORMAL, Math.abs(both));
      high[i] = share * (both + sign * (high[i] - low[i]));
    }
  }

  /** Sums along a straight piece about each place, by doubling. */
  private void alongPiece(float[][] sum, double c, double d) {
    double spacing = PIECE_UM / frame.um() / (1 << DOUBLINGS);
    for (int k = 0; k < DOUBLINGS; k++) {
      // The last half is taken from behind: the middle of the piece is meant.
      boolean behind = k == DOUBLINGS - 1;
      double from = behind ? 0 : spacing * ((1 << k) - 1);
      double to = behind ? -spacing * (1 << k) : from + spacing * (1 << k);
      // Whole pixels, so that all doublings together do not drift from the line.
      int dx = (int) (Math.round(to * c) - Math.round(from * c));
      int dy = (int) (Math.round(to * d) - Math.round(from * d));
      addAside(sum, dx, dy);
    }
  }

  /**
   * Adds to each place what lies so far aside of it, before anything was added there. A row at a
   * time at one index: so the compiler makes it fast.
   */
  private static void addAside(float[][] sum, int dx, int dy) {
    int height = sum.length;
    int width = sum[0].length;
    float[] aside = new float[width];
    int from = Math.max(0, dx);
    int to = Math.max(0, -dx);
    int n = Math.max(0, width - Math.abs(dx));
    for (int k = 0; k < height; k++) {
      int y = dy >= 0 ? k : height - 1 - k;
      if (y + dy >= 0 && y + dy < height) {
        System.arraycopy(sum[y + dy], from, aside, to, n);
        add(sum[y], aside);
      }
    }
  }

  private static void add(float[] to, float[] by) {
    for (int i = 0; i < to.length; i++) {
      to[i] += by[i];
    }
  }

  private static void widen(float[] high, float[] low, float[] one, float[] other) {
    for (int i = 0; i < high.length; i++) {
      high[i] = Math.max(high[i], Math.max(one[i], other[i]));
      low[i] = Math.min(low[i], Math.min(one[i], other[i]));
    }
  }

  /**
   * Second derivatives, xx, yy and xy of each row, the larger of each pixel capped; none near a
   * defect or the rim.
   */
  private float[][][] bends(float[] s) {
    int width = frame.width();
    int height = frame.height();
    float rim = (float) (FaceFrame.LOOKED_AT_UM / 2 - 4 * frame.um());
    float[][][] bends = new float[height][3][width];
    // The last three rows and their slopes, each in the place of the one no longer needed.
    float[][] rows = new float[3][width];
    float[][] slopes = new float[3][width];
    float[] ahead = new float[width];
    float[] behind = new float[width];
    for (int y = 0; y < height; y++) {
      float[] row = rows[y % 3];
      System.arraycopy(s, y * width, row, 0, width);
      System.arraycopy(row, 1, ahead, 0, width - 1);
      System.arraycopy(row, 0, behind, 1, width - 1);
      bend(behind, row, ahead, bends[y][0]);
      slope(behind, ahead, slopes[y % 3]);
      if (y > 1) {
        bend(rows[(y - 2) % 3], rows[(y - 1) % 3], row, bends[y - 1][1]);
        slope(slopes[(y - 2) % 3], slopes[y % 3], bends[y - 1][2]);
      }
    }
    for (int y = 0; y < height; y++) {
      cap(bends[y]);
      int from = 0;
      int to = width;
      while (from < to && frame.radius(y * width + from) >= rim) {
        from++;
      }
      while (from < to && frame.radius(y * width + to - 1) >= rim) {
        to--;
      }
      boolean atBorder = y == 0 || y == height - 1;
      clear(bends[y], 0, atBorder ? width : Math.max(1, from));
      clear(bends[y], Math.min(width - 1, to), width);
    }
    hideDefects(bends);
    return bends;
  }

  private static void bend(float[] before, float[] here, float[] behind, float[] out) {
    for (int x = 0; x < out.length; x++) {
      out[x] = before[x] + behind[x] - 2 * here[x];
    }
  }

  private static void slope(float[] before, float[] behind, float[] out) {
    for (int x = 0; x < out.length; x++) {
      out[x] = 0.5f * (behind[x] - before[x]);
    }
  }

  /** Brings the largest second derivative of each pixel, in any direction, to the cap. */
  private static void cap(float[][] bends) {
    float[] xx = bends[0];
    float[] yy = bends[1];
    float[] xy = bends[2];
    for (int x = 0; x < xx.length; x++) {
      float half = 0.5f * (xx[x] - yy[x]);
      float largest =
          0.5f * Math.abs(xx[x] + yy[x]) + (float) Math.sqrt(half * half + xy[x] * xy[x]);
      float share = CAP / Math.max(CAP, largest);
      xx[x] *= share;
      yy[x] *= share;
      xy[x] *= share;
    }
  }

  /** A defect or its blurred rim would feign a piece of a line. */
  private void hideDefects(float[][][] bends) {
    int width = frame.width();
    int reach = (int) Math.ceil(RIM_UM / frame.um());
    for (int p = 0; p < owner.length; p++) {
      if (owner[p] == 0 || flaws.get(owner[p] - 1).kind() != FlawKind.DEFECT) {
        continue;
      }
      int px = p % width;
      int py = p / width;
      for (int y = Math.max(0, py - reach); y <= Math.min(frame.height() - 1, py + reach); y++) {
        clear(bends[y], Math.max(0, px - reach), Math.min(width, px + reach + 1));
      }
    }
  }

  private static void clear(float[][] rows, int from, int to) {
    for (float[] row : rows) {
      Arrays.fill(row, from, to, 0);
    }
  }

  /**
   * Pieces of one line joined, strongest first: what goes on within {@link #GAP_UM} of a stronger
   * piece and in its tone belongs to it; what runs beside one in the other tone is only the edge
   * that blur and second derivatives give a line.
   */
  private List<Patch> joined(List<Patch> pieces, float[] best) {
    List<Patch> byStrength = new ArrayList<>(pieces);
    byStrength.sort(
        Comparator.comparingDouble((Patch p) -> strength(p, best))
            .reversed()
            .thenComparingInt(p -> p.pixels()[0]));
    List<Patch> joined = new ArrayList<>();
    int[] near = new int[rest.length];
    for (Patch piece : byStrength) {
      int[] touching = new int[joined.size() + 1];
      for (int p : piece.pixels()) {
        touching[near[p]]++;
      }
      int most = 0;
      for (int k = 1; k < touching.length; k++) {
        most = touching[k] > 0 && (most == 0 || touching[k] > touching[most]) ? k : most;
      }
      if (most == 0) {
        joined.add(piece);
        surround(piece, near, joined.size());
      } else if (joined.get(most - 1).sign() == piece.sign()) {
        joined.set(most - 1, joined.get(most - 1).with(piece));
        surround(piece, near, most);
      }
    }
    return joined;
  }

  private static double strength(Patch piece, float[] best) {
    double strength = 0;
    for (int p : piece.pixels()) {
      strength += Math.abs(best[p]);
    }
    return strength;
  }

  private void surround(Patch piece, int[] near, int number) {
    int width = frame.width();
    int reach = (int) Math.ceil(GAP_UM / frame.um());
    for (int p : piece.pixels()) {
      int px = p % width;
      int py = p / width;
      for (int y = Math.max(0, py - reach); y <= Math.min(frame.height() - 1, py + reach); y++) {
        for (int x = Math.max(0, px - reach); x <= Math.min(width - 1, px + reach); x++) {
          if (near[y * width + x] == 0) {
            near[y * width + x] = number;
          }
        }
      }
    }
  }

  private void add(Patch part, float[] s, double sigma) {
    double sx = 0;
    double sy = 0;
    int taken = 0;
    double peak = 0;
    double near = Double.MAX_VALUE;
    double far = 0;
    for (int p : part.pixels()) {
      sx += frame.xOf(p) / part.size();
      sy += frame.yOf(p) / part.size();
      taken += owner[p] != 0 ? 1 : 0;
      peak += s[p] / part.size();
      near = Math.min(near, frame.radius(p));
      far = Math.max(far, frame.radius(p));
    }
    if (taken > 0.25 * part.size()) {
      return;
    }
    double longest = part.longest(frame);
    double um = frame.um();
    double thin = part.size() * um * um / longest;
    boolean alongAnEdge = far - near < 3.5;
    if (longest < 13 || longest < 3.5 * thin || alongAnEdge) {
      return;
    }
    double blur = Math.hypot(frame.blurPx(), sigma) * um;
    double most = 2.355 * frame.blurPx() * um;
    double w = Math.max(0.3, Math.min(RegionFinder.deblurred(thin, blur), most));
    flaws.add(new Flaw(FlawKind.SCRATCH, sx, sy, longest, w, 0.3 + blur / 3, peak, near, far));
    for (int p : part.pixels()) {
      owner[p] = flaws.size();
    }
  }
}
