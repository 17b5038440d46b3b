package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Finds flaws about a known cladding. The face without flaws is modelled as a median by radius
 * times a smooth surface of light; what differs from it, over the noise that the picture itself
 * shows at that radius, is a flaw: regions by a threshold at several scales, lines by second
 * derivatives summed along straight pieces in sixteen directions.
 */
final class FlawFinder {
  /** Diameter that is looked at, µm: the contact zone's. */
  static final double LOOKED_AT_UM = 250;

  private static final double REGION = 5.5;
  private static final double GROW = 2.5;
  private static final double LINE = 7;
  private static final int TURNS = 16;

  /** Pieces of a line that lie no further apart are one line, µm. */
  private static final double GAP_UM = 5;

  /** A line that crosses the core may be lost there, µm. */
  private static final double BRIDGE_UM = 30;

  private final Grey grey;
  private final Cladding edge;
  private final double blurPx;
  private final double um;
  private final int left;
  private final int top;
  private final int width;
  private final int height;
  private final float[] radius;
  private final float[] rest;

  FlawFinder(Grey grey, Cladding edge, double blurPx, double umPerPx) {
    this.grey = grey;
    this.edge = edge;
    this.blurPx = blurPx;
    this.um = umPerPx;
    double reach = LOOKED_AT_UM / 125;
    left = (int) Math.max(0, edge.cx() - reach * edge.rxPx());
    top = (int) Math.max(0, edge.cy() - reach * edge.ryPx());
    width = (int) Math.min(grey.width() - 1, edge.cx() + reach * edge.rxPx()) - left + 1;
    height = (int) Math.min(grey.height() - 1, edge.cy() + reach * edge.ryPx()) - top + 1;
    radius = new float[width * height];
    rest = new float[width * height];
  }

  List<Flaw> find() {
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        radius[y * width + x] = (float) Math.hypot(xUm(x), yUm(y));
      }
    }
    background();
    int[] owner = new int[rest.length];
    List<Flaw> flaws = new ArrayList<>();
    double spot = Math.max(0.7, 0.5 / um);
    for (double s : new double[] {spot, 2 * spot, 4 * spot}) {
      regions(s, owner, flaws);
    }
    lines(owner, flaws);
    return joinedScratches(owner, flaws);
  }

  /** Scratches found as two pieces on either side of the core, or of dirt, made one. */
  private List<Flaw> joinedScratches(int[] owner, List<Flaw> flaws) {
    List<List<Integer>> pixels = new ArrayList<>();
    flaws.forEach(f -> pixels.add(new ArrayList<>()));
    for (int p = 0; p < owner.length; p++) {
      if (owner[p] != 0) {
        pixels.get(owner[p] - 1).add(p);
      }
    }
    List<Flaw> joined = new ArrayList<>(flaws);
    for (int i = 0; i < joined.size(); i++) {
      for (int j = i + 1; j < joined.size(); j++) {
        if (isOneScratch(joined.get(i), pixels.get(i), joined.get(j), pixels.get(j))) {
          pixels.get(i).addAll(pixels.remove(j));
          joined.set(i, bridged(joined.get(i), joined.remove(j), pixels.get(i)));
          j = i;
        }
      }
    }
    return joined;
  }

  private boolean isOneScratch(
      Flaw one, List<Integer> onePixels, Flaw other, List<Integer> otherPixels) {
    return one.kind() == FlawKind.SCRATCH
        && other.kind() == FlawKind.SCRATCH
        && one.contrast() * other.contrast() > 0
        && isInLine(onePixels, otherPixels);
  }

  /** One scratch of two pieces; it is taken to run from one to the other. */
  private Flaw bridged(Flaw one, Flaw other, List<Integer> pixels) {
    Axis axis = axis(pixels);
    double dx = other.xUm() - one.xUm();
    double dy = other.yUm() - one.yUm();
    double square = dx * dx + dy * dy;
    double along = square == 0 ? 0 : -(one.xUm() * dx + one.yUm() * dy) / square;
    double at = Math.max(0, Math.min(1, along));
    double between = Math.hypot(one.xUm() + at * dx, one.yUm() + at * dy);
    Flaw wider = one.widthUm() >= other.widthUm() ? one : other;
    return new Flaw(
        FlawKind.SCRATCH,
        axis.x(),
        axis.y(),
        Math.max(wider.widthUm(), axis.length()),
        wider.widthUm(),
        wider.sizeUncertaintyUm(),
        wider.contrast(),
        Math.min(between, Math.min(one.nearestUm(), other.nearestUm())),
        Math.max(one.farthestUm(), other.farthestUm()));
  }

  private double xUm(double x) {
    return (x + left - edge.cx()) * 62.5 / edge.rxPx();
  }

  private double yUm(double y) {
    return (y + top - edge.cy()) * 62.5 / edge.ryPx();
  }

  private boolean looked(int i) {
    return radius[i] < LOOKED_AT_UM / 2;
  }

  /** Fills {@link #rest} with the share by which each pixel differs from the face without flaws. */
  private void background() {
    double bin = Math.max(0.25, um / 2);
    int bins = (int) (LOOKED_AT_UM / 2 / bin) + 2;
    float[] light = new float[rest.length];
    Arrays.fill(light, 1);
    float[] mean = new float[rest.length];
    for (int round = 0; round < 3; round++) {
      double[] profile = byRadius(light, bin, bins);
      for (int i = 0; i < rest.length; i++) {
        double at = Math.min(radius[i] / bin - 0.5, bins - 2.0);
        int b = (int) Math.max(0, at);
        double f = Math.max(0, at - b);
        mean[i] = (float) Math.max(0.01, profile[b] + f * (profile[b + 1] - profile[b]));
        rest[i] = pixel(i) / mean[i];
      }
      if (round < 2) {
        surface(light);
      }
    }
    for (int i = 0; i < rest.length; i++) {
      rest[i] = looked(i) ? rest[i] / light[i] - 1 : 0;
    }
  }

  private float pixel(int i) {
    return grey.at(left + i % width, top + i / width);
  }

  private double[] byRadius(float[] light, double bin, int bins) {
    int[] count = new int[bins];
    for (int i = 0; i < rest.length; i++) {
      if (looked(i)) {
        count[(int) (radius[i] / bin)]++;
      }
    }
    float[][] values = new float[bins][];
    for (int b = 0; b < bins; b++) {
      values[b] = new float[count[b]];
    }
    for (int i = 0; i < rest.length; i++) {
      if (looked(i)) {
        int b = (int) (radius[i] / bin);
        values[b][--count[b]] = pixel(i) / light[i];
      }
    }
    double[] out = new double[bins];
    // About the very centre there are few pixels by radius: they share one median.
    int few = (int) (2.2 / bin);
    float[] middle = new float[0];
    for (int b = 0; b <= few && b < bins; b++) {
      int from = middle.length;
      middle = Arrays.copyOf(middle, from + values[b].length);
      System.arraycopy(values[b], 0, middle, from, values[b].length);
    }
    double last = middle(middle, 0.5);
    for (int b = 0; b < bins; b++) {
      if (b > few && values[b].length > 0) {
        last = middle(values[b], last);
      }
      out[b] = last;
    }
    return out;
  }

  private static double middle(float[] v, double otherwise) {
    if (v.length == 0) {
      return otherwise;
    }
    Arrays.sort(v);
    return v.length % 2 == 1 ? v[v.length / 2] : 0.5 * (v[v.length / 2] + v[v.length / 2 - 1]);
  }

  /** A cubic surface of light through medians of small squares, outliers weighed out. */
  private void surface(float[] light) {
    int cell = Math.max(4, width / 40);
    List<double[]> rows = new ArrayList<>();
    for (int y = 0; y + cell <= height; y += cell) {
      for (int x = 0; x + cell <= width; x += cell) {
        float[] v = new float[cell * cell];
        int n = 0;
        for (int j = 0; j < cell; j++) {
          for (int k = 0; k < cell; k++) {
            int i = (y + j) * width + x + k;
            if (looked(i)) {
              v[n++] = rest[i];
            }
          }
        }
        if (n > cell * cell / 2) {
          double[] row = terms(x + (cell - 1) / 2.0, y + (cell - 1) / 2.0);
          row[10] = middle(Arrays.copyOf(v, n), 1);
          rows.add(row);
        }
      }
    }
    double[] x = new double[10];
    x[0] = 1;
    double scatter = 1;
    for (int round = 0; round < 6; round++) {
      double[][] a = new double[10][11];
      double[] off = new double[rows.size()];
      for (int r = 0; r < rows.size(); r++) {
        double[] row = rows.get(r);
        double e = row[10] - value(x, row);
        off[r] = Math.abs(e);
        double u = round == 0 ? 0 : e / (4 * scatter);
        double w = Math.abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0;
        for (int j = 0; j < 10; j++) {
          for (int k = 0; k <= 10; k++) {
            a[j][k] += w * row[j] * row[k];
          }
        }
      }
      for (int j = 0; j < 10; j++) {
        a[j][j] += 1e-6;
      }
      x = CircleFit.solved(a);
      Arrays.sort(off);
      scatter = Math.max(0.002, round == 0 ? 0.1 : 1.48 * off[off.length / 2]);
    }
    for (int i = 0; i < light.length; i++) {
      light[i] = (float) Math.max(0.05, value(x, terms(i % width, i / width)));
    }
  }

  private double[] terms(double px, double py) {
    double x = xUm(px) / 125;
    double y = yUm(py) / 125;
    return new double[] {
      1, x, y, x * x, x * y, y * y, x * x * x, x * x * y, x * y * y, y * y * y, 0
    };
  }

  private static double value(double[] x, double[] row) {
    double v = 0;
    for (int j = 0; j < x.length; j++) {
      v += x[j] * row[j];
    }
    return v;
  }

  /** Robust spread of a map by radius, smoothed upwards so that one ring's flaws hide nothing. */
  private double[] spread(float[] map, double bin, int bins) {
    int[] count = new int[bins];
    for (int i = 0; i < map.length; i++) {
      if (looked(i)) {
        count[(int) (radius[i] / bin)]++;
      }
    }
    float[][] values = new float[bins][];
    for (int b = 0; b < bins; b++) {
      values[b] = new float[count[b]];
    }
    for (int i = 0; i < map.length; i++) {
      if (looked(i)) {
        int b = (int) (radius[i] / bin);
        values[b][--count[b]] = Math.abs(map[i]);
      }
    }
    double[] own = new double[bins];
    for (int b = 0; b < bins; b++) {
      own[b] = values[b].length < 12 ? -1 : 1.4826 * middle(values[b], 0);
    }
    double fall = own[0];
    for (int b = 0; b < bins && fall < 0; b++) {
      fall = own[b];
    }
    double[] out = new double[bins];
    for (int b = 0; b < bins; b++) {
      fall = own[b] < 0 ? fall : own[b];
      double floor = 0.0015;
      out[b] = Math.max(floor, fall);
    }
    double[] wide = new double[bins];
    for (int b = 0; b < bins; b++) {
      wide[b] = Math.max(out[b], Math.max(out[Math.max(0, b - 1)], out[Math.min(bins - 1, b + 1)]));
    }
    return wide;
  }

  private void regions(double sigma, int[] owner, List<Flaw> flaws) {
    float[] map = new Grey(width, height, rest).blurred(sigma).pixels();
    double bin = Math.max(1.0, 1.5 * um);
    int bins = (int) (LOOKED_AT_UM / 2 / bin) + 2;
    double[] noise = spread(map, bin, bins);
    boolean[] seen = new boolean[map.length];
    for (int i = 0; i < map.length; i++) {
      if (seen[i] || owner[i] != 0 || !looked(i)) {
        continue;
      }
      double z = map[i] / noise[(int) (radius[i] / bin)];
      if (Math.abs(z) < REGION || Math.abs(map[i]) < 0.02) {
        continue;
      }
      int sign = z > 0 ? 1 : -1;
      List<Integer> part = grown(i, map, noise, bin, sign, seen, GROW);
      double peak = level(part, map, sign);
      // The half of its own height bounds it, seen from its highest place.
      int highest = part.get(0);
      for (int p : part) {
        highest = sign * map[p] > sign * map[highest] ? p : highest;
      }
      List<Integer> body = new ArrayList<>();
      for (int p : part) {
        if (sign * map[p] >= peak / 2) {
          body.add(p);
        }
      }
      boolean taken = false;
      for (int p : body) {
        taken |= owner[p] != 0;
      }
      if (taken || body.size() < 2) {
        continue;
      }
      flaws.add(measured(body, map, peak * sign, sigma));
      for (int p : part) {
        owner[p] = flaws.size();
      }
    }
  }

  private static double level(List<Integer> part, float[] map, int sign) {
    double[] v = part.stream().mapToDouble(p -> sign * map[p]).sorted().toArray();
    return v[(int) (0.93 * (v.length - 1))];
  }

  private List<Integer> grown(
      int from, float[] map, double[] noise, double bin, int sign, boolean[] seen, double least) {
    List<Integer> part = new ArrayList<>();
    ArrayDeque<Integer> open = new ArrayDeque<>();
    open.add(from);
    seen[from] = true;
    while (!open.isEmpty()) {
      int p = open.poll();
      part.add(p);
      int x = p % width;
      int y = p / width;
      for (int dy = -1; dy <= 1; dy++) {
        for (int dx = -1; dx <= 1; dx++) {
          int q = p + dy * width + dx;
          if (x + dx < 0 || y + dy < 0 || x + dx >= width || y + dy >= height || seen[q]) {
            continue;
          }
          if (looked(q) && sign * map[q] > least * noise[(int) (radius[q] / bin)]) {
            seen[q] = true;
            open.add(q);
          }
        }
      }
    }
    return part;
  }

  private Flaw measured(List<Integer> body, float[] map, double peak, double sigma) {
    double sx = 0;
    double sy = 0;
    double far = 0;
    double near = Double.MAX_VALUE;
    for (int p : body) {
      sx += xUm(p % width) / body.size();
      sy += yUm(p / width) / body.size();
    }
    // Extent in each direction at half height, to a part of a pixel.
    double longest = 0;
    double shortest = Double.MAX_VALUE;
    int sign = peak > 0 ? 1 : -1;
    for (int k = 0; k < 24; k++) {
      double c = Math.cos(Math.PI * k / 24);
      double s = Math.sin(Math.PI * k / 24);
      double low = Double.MAX_VALUE;
      double high = -Double.MAX_VALUE;
      for (int p : body) {
        double d = xUm(p % width) * c + yUm(p / width) * s;
        int step = (Math.abs(c) > Math.abs(s) ? 1 : width);
        double beyondUp = share(p, step * (step == 1 ? (c > 0 ? 1 : -1) : 1), map, peak, sign);
        double beyondDown = share(p, -step * (step == 1 ? (c > 0 ? 1 : -1) : 1), map, peak, sign);
        double along = um * (step == 1 ? Math.abs(c) : Math.abs(s));
        low = Math.min(low, d - beyondDown * along);
        high = Math.max(high, d + beyondUp * along);
      }
      longest = Math.max(longest, high - low);
      shortest = Math.min(shortest, high - low);
    }
    double blur = Math.hypot(blurPx, sigma) * um;
    double length = deblurred(Math.max(longest, um), blur);
    double across = Math.min(length, deblurred(Math.max(shortest, um), blur));
    for (int p : body) {
      far = Math.max(far, radius[p]);
      near = Math.min(near, radius[p]);
    }
    double trim = Math.max(0, (longest - length) / 2);
    near = Math.max(0, near + trim);
    far = Math.max(near, far - trim);
    double unsure = Math.hypot(0.25, 0.04 * length) + Math.max(0, blur - length / 2.355);
    double area = body.size() * um * um;
    double thin = area / longest;
    boolean line = longest > 9 && longest > 4.5 * thin && shortest < 0.8 * longest;
    if (line) {
      double w = deblurred(thin, blur);
      return new Flaw(
          FlawKind.SCRATCH, sx, sy, Math.max(length, w), w, 0.3 + blur / 3, peak, near, far);
    }
    return new Flaw(FlawKind.DEFECT, sx, sy, length, across, unsure, peak, near, far);
  }

  /** How far beyond a pixel the half height is met on the way to its neighbour, 0 to 1. */
  private double share(int p, int step, float[] map, double peak, int sign) {
    int q = p + step;
    if (q < 0 || q >= map.length) {
      return 0.5;
    }
    double here = sign * map[p];
    double there = sign * map[q];
    double half = Math.abs(peak) / 2;
    return there >= half || here <= there ? 0 : Math.min(1, (here - half) / (here - there));
  }

  /**
   * Diameter of a disk that, blurred by a Gaussian, is as wide at half height as seen. A disk of
   * diameter D on its own has 1 - exp(-D^2/8s^2) of its contrast at its centre and, to 3 %, a width
   * of (D^4 + (2.355 s)^4)^(1/4) at half height.
   */
  static double deblurred(double seen, double sigma) {
    double least = 2.355 * sigma;
    double power = Math.pow(seen, 4) - Math.pow(least, 4);
    return Math.max(0.4 * Math.min(seen, least), power <= 0 ? 0 : Math.pow(power, 0.25));
  }

  private void lines(int[] owner, List<Flaw> flaws) {
    double sigma = Math.max(0.8, 0.7 / um);
    float[] s = new Grey(width, height, rest).blurred(sigma).pixels();
    int n = s.length;
    float[] xx = new float[n];
    float[] yy = new float[n];
    float[] xy = new float[n];
    for (int y = 1; y < height - 1; y++) {
      for (int x = 1; x < width - 1; x++) {
        int i = y * width + x;
        if (radius[i] < LOOKED_AT_UM / 2 - 4 * um) {
          xx[i] = s[i + 1] - 2 * s[i] + s[i - 1];
          yy[i] = s[i + width] - 2 * s[i] + s[i - width];
          xy[i] = (s[i + width + 1] - s[i + width - 1] - s[i - width + 1] + s[i - width - 1]) / 4;
        }
      }
    }
    double half = 7 / um;
    float[] best = new float[n];
    float[] sum = new float[n];
    for (int t = 0; t < TURNS; t++) {
      double c = Math.cos(Math.PI * t / TURNS);
      double d = Math.sin(Math.PI * t / TURNS);
      float a = (float) (d * d);
      float b = (float) (c * c);
      float m = (float) (-2 * c * d);
      Arrays.fill(sum, 0);
      int reach = (int) half + 1;
      int count = 0;
      for (double k = -half; k <= half; k += 1) {
        int dx = (int) Math.round(k * c);
        int dy = (int) Math.round(k * d);
        count++;
        for (int y = reach; y < height - reach; y++) {
          int to = y * width;
          int from = (y + dy) * width + dx;
          for (int x = reach; x < width - reach; x++) {
            int j = from + x;
            float v = a * xx[j] + b * yy[j] + m * xy[j];
            // One strong spot must not make a line.
            sum[to + x] += v > 0.012f ? 0.012f : v < -0.012f ? -0.012f : v;
          }
        }
      }
      for (int i = 0; i < n; i++) {
        float v = -sum[i] / count;
        if (Math.abs(v) > Math.abs(best[i])) {
          best[i] = v;
        }
      }
    }
    double bin = Math.max(1.5, 2 * um);
    int bins = (int) (LOOKED_AT_UM / 2 / bin) + 2;
    double[] noise = spread(best, bin, bins);
    for (int b = 0; b < bins; b++) {
      noise[b] = noise[b] <= 0.0015 ? Math.max(0.00005, floorOf(best, b, bin)) : noise[b];
    }
    boolean[] seen = new boolean[n];
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (seen[i] || !looked(i)) {
        continue;
      }
      double z = best[i] / noise[(int) (radius[i] / bin)];
      if (Math.abs(z) < LINE / 1.5) {
        continue;
      }
      int sign = z > 0 ? 1 : -1;
      List<Integer> part = grown(i, best, noise, bin, sign, seen, LINE / 2.2);
      double strength = 0;
      for (int p : part) {
        strength += Math.abs(best[p]);
      }
      pieces.add(new Piece(part, sign, strength));
    }
    for (Piece piece : joined(pieces)) {
      line(piece.pixels(), s, sigma, owner, flaws);
    }
  }

  /** Pixels of a line, or of a part of one: brighter than the face (1) or darker (-1). */
  private record Piece(List<Integer> pixels, int sign, double strength) {}

  /**
   * Pieces of one line joined, strongest first: what goes on within {@link #GAP_UM} of a stronger
   * piece and in its tone belongs to it; what runs beside one in the other tone is only the edge
   * that blur and second derivatives give a line.
   */
  private List<Piece> joined(List<Piece> pieces) {
    List<Piece> byStrength = new ArrayList<>(pieces);
    byStrength.sort(Comparator.comparingDouble(Piece::strength).reversed());
    List<Piece> joined = new ArrayList<>();
    int[] near = new int[rest.length];
    for (Piece piece : byStrength) {
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
        surround(piece.pixels(), near, joined.size());
      } else if (joined.get(most - 1).sign() == piece.sign()) {
        Piece with = joined.get(most - 1);
        List<Integer> all = new ArrayList<>(with.pixels());
        all.addAll(piece.pixels());
        joined.set(most - 1, new Piece(all, with.sign(), with.strength() + piece.strength()));
        surround(piece.pixels(), near, most);
      }
    }
    return joined;
  }

  /** Both are long and thin, point the same way, and each lies on the other's line. */
  private boolean isInLine(List<Integer> one, List<Integer> other) {
    Axis a = axis(one);
    Axis b = axis(other);
    double dx = b.x() - a.x();
    double dy = b.y() - a.y();
    double apart = Math.hypot(dx, dy);
    double gap = apart - (a.length() + b.length()) / 2;
    return a.length() > 3 * a.across()
        && b.length() > 3 * b.across()
        && gap < BRIDGE_UM
        && Math.abs(a.cos() * b.cos() + a.sin() * b.sin()) > Math.cos(Math.toRadians(12))
        && Math.abs(dx * a.sin() - dy * a.cos()) < 2 + 0.1 * apart
        && Math.abs(dx * b.sin() - dy * b.cos()) < 2 + 0.1 * apart;
  }

  /** Centre, direction and extents of some pixels, µm: those of a bar with the same moments. */
  private record Axis(double x, double y, double cos, double sin, double length, double across) {}

  private Axis axis(List<Integer> pixels) {
    double x = 0;
    double y = 0;
    for (int p : pixels) {
      x += xUm(p % width) / pixels.size();
      y += yUm(p / width) / pixels.size();
    }
    double xx = 0;
    double yy = 0;
    double xy = 0;
    for (int p : pixels) {
      double dx = xUm(p % width) - x;
      double dy = yUm(p / width) - y;
      xx += dx * dx / pixels.size();
      yy += dy * dy / pixels.size();
      xy += dx * dy / pixels.size();
    }
    double turn = Math.atan2(2 * xy, xx - yy) / 2;
    double mean = (xx + yy) / 2;
    double half = Math.hypot((xx - yy) / 2, xy);
    return new Axis(
        x,
        y,
        Math.cos(turn),
        Math.sin(turn),
        Math.sqrt(12 * (mean + half)),
        Math.max(um, Math.sqrt(12 * Math.max(0, mean - half))));
  }

  private void surround(List<Integer> pixels, int[] near, int number) {
    int reach = (int) Math.ceil(GAP_UM / um);
    for (int p : pixels) {
      int px = p % width;
      int py = p / width;
      for (int y = Math.max(0, py - reach); y <= Math.min(height - 1, py + reach); y++) {
        for (int x = Math.max(0, px - reach); x <= Math.min(width - 1, px + reach); x++) {
          if (near[y * width + x] == 0) {
            near[y * width + x] = number;
          }
        }
      }
    }
  }

  private double floorOf(float[] map, int b, double bin) {
    float[] v = new float[map.length];
    int n = 0;
    for (int i = 0; i < map.length; i++) {
      if (looked(i) && (int) (radius[i] / bin) == b) {
        v[n++] = Math.abs(map[i]);
      }
    }
    return middle(Arrays.copyOf(v, n), 0.001);
  }

  private void line(List<Integer> part, float[] s, double sigma, int[] owner, List<Flaw> flaws) {
    double sx = 0;
    double sy = 0;
    int taken = 0;
    for (int p : part) {
      sx += xUm(p % width) / part.size();
      sy += yUm(p / width) / part.size();
      taken += owner[p] != 0 ? 1 : 0;
    }
    if (taken > 0.25 * part.size()) {
      return;
    }
    double longest = 0;
    for (int k = 0; k < 24; k++) {
      double low = Double.MAX_VALUE;
      double high = -Double.MAX_VALUE;
      for (int p : part) {
        double d =
            xUm(p % width) * Math.cos(Math.PI * k / 24)
                + yUm(p / width) * Math.sin(Math.PI * k / 24);
        low = Math.min(low, d);
        high = Math.max(high, d);
      }
      longest = Math.max(longest, high - low);
    }
    double thin = part.size() * um * um / longest;
    double[] rs = part.stream().mapToDouble(p -> radius[p]).sorted().toArray();
    boolean alongAnEdge = rs[rs.length - 1] - rs[0] < 3.5;
    if (longest < 13 || longest < 3.5 * thin || alongAnEdge) {
      return;
    }
    double peak = 0;
    for (int p : part) {
      peak += s[p] / part.size();
    }
    double blur = Math.hypot(blurPx, sigma) * um;
    double w = Math.max(0.3, Math.min(deblurred(thin, blur), 2.355 * blurPx * um));
    flaws.add(
        new Flaw(
            FlawKind.SCRATCH, sx, sy, longest, w, 0.3 + blur / 3, peak, rs[0], rs[rs.length - 1]));
    for (int p : part) {
      owner[p] = flaws.size();
    }
  }
}
