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

  /** Doublings of the sum along a piece: two to this power places make it up. */
  private static final int DOUBLINGS = 4;

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
      if (frame.looked(i) && !grower.isTaken(i) && Math.abs(grower.overNoise(i)) > LINE / 1.5) {
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
    int n = s.length;
    boolean[] hidden = nearDefects();
    float[] xx = new float[n];
    float[] yy = new float[n];
    float[] xy = new float[n];
    for (int y = 1; y < frame.height() - 1; y++) {
      for (int x = 1; x < width - 1; x++) {
        int i = y * width + x;
        if (!hidden[i] && frame.radius(i) < FaceFrame.LOOKED_AT_UM / 2 - 4 * frame.um()) {
          xx[i] = s[i + 1] - 2 * s[i] + s[i - 1];
          yy[i] = s[i + width] - 2 * s[i] + s[i - width];
          xy[i] = (s[i + width + 1] - s[i + width - 1] - s[i - width + 1] + s[i - width - 1]) / 4;
        }
      }
    }
    float[] high = new float[n];
    float[] low = new float[n];
    float[] sum = new float[n];
    float[] twice = new float[n];
    int places = 1 << DOUBLINGS;
    double spacing = PIECE_UM / frame.um() / places;
    for (int t = 0; t < TURNS; t++) {
      double c = Math.cos(Math.PI * t / TURNS);
      double d = Math.sin(Math.PI * t / TURNS);
      float a = (float) (d * d);
      float b = (float) (c * c);
      float m = (float) (-2 * c * d);
      for (int i = 0; i < n; i++) {
        sum[i] = Math.max(-CAP, Math.min(CAP, a * xx[i] + b * yy[i] + m * xy[i]));
      }
      double reached = 0;
      for (int k = 0; k < DOUBLINGS; k++) {
        double next = spacing * (1 << k);
        // Whole pixels, so that all doublings together do not drift from the line.
        int dx = (int) (Math.round((reached + next) * c) - Math.round(reached * c));
        int dy = (int) (Math.round((reached + next) * d) - Math.round(reached * d));
        reached += next;
        int shift = dy * width + dx;
        int from = Math.max(0, -shift);
        int to = Math.min(n, n - shift);
        Arrays.fill(twice, 0, from, 0);
        Arrays.fill(twice, Math.max(from, to), n, 0);
        for (int i = from; i < to; i++) {
          twice[i] = sum[i] + sum[i + shift];
        }
        float[] swap = sum;
        sum = twice;
        twice = swap;
      }
      // A sum begins at its first place; the middle of the piece is meant.
      int back = (int) Math.round(reached * d / 2) * width + (int) Math.round(reached * c / 2);
      int to = Math.min(n, n + back);
      for (int i = Math.max(0, back); i < to; i++) {
        high[i] = Math.max(high[i], sum[i - back]);
        low[i] = Math.min(low[i], sum[i - back]);
      }
    }
    // A bright line has a negative second derivative.
    for (int i = 0; i < n; i++) {
      high[i] = -(high[i] > -low[i] ? high[i] : low[i]) / places;
    }
    return high;
  }

  /** Where a defect or its blurred rim would feign a piece of a line. */
  private boolean[] nearDefects() {
    boolean[] hidden = new boolean[owner.length];
    int width = frame.width();
    int reach = (int) Math.ceil(RIM_UM / frame.um());
    for (int p = 0; p < owner.length; p++) {
      if (owner[p] == 0 || flaws.get(owner[p] - 1).kind() != FlawKind.DEFECT) {
        continue;
      }
      int px = p % width;
      int py = p / width;
      for (int y = Math.max(0, py - reach); y <= Math.min(frame.height() - 1, py + reach); y++) {
        int from = y * width + Math.max(0, px - reach);
        int to = y * width + Math.min(width - 1, px + reach);
        Arrays.fill(hidden, from, to + 1, true);
      }
    }
    return hidden;
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
