package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Finds the other fibres of a ferrule from one of them. Fibres stand 250 µm apart, which is four
 * radii of a cladding, and rows as far or twice as far apart (common practice, no source). Each
 * cladding is found by itself about its place; a ring of its size and tone at the picture's edge is
 * a fibre that the edge cuts.
 */
final class RowFinder {
  /** Radius of a cladding in the coarse picture that neighbours are looked up in, px. */
  private static final double COARSE_PX = 14;

  /** From fibre to fibre, in radii of the cladding. */
  private static final double PITCH = 4;

  /** Where a neighbour may lie off the place expected, along and across, in radii. */
  private static final double FIRST_ALONG = 0.25;

  private static final double FIRST_ACROSS = 0.45;
  private static final double NEXT = 0.25;

  /** Half a window about a place, in radii: it reaches no neighbour's edge. */
  private static final double WINDOW = 1.9;

  /** Radii of one ferrule's claddings agree by this share. */
  private static final double ALIKE = 0.04;

  /**
   * Claddings are made to 125 µm within 0.7 µm (from memory): a radius further off the others' is
   * misread, and theirs is taken.
   */
  private static final double MADE_TO = 0.006;

  /** A ring stands out at least by these shares of the first fibre's, whole and cut. */
  private static final double WHOLE_RING = 0.45;

  private static final double CUT_RING = 0.75;

  /** So much of a ring must lie in the picture for it to be told. */
  private static final double LEAST_VISIBLE = 0.3;

  /** Level inside, over the first fibre's, by which a disk without a core is one of its kind. */
  private static final double LEVEL_ALIKE = 0.2;

  private static final int MOST_PLACES = 48;

  /** So many fibres may be missing beside the first one found. */
  private static final int MOST_MISSING = 4;

  /** What stands at a place. */
  private sealed interface State permits Fibre, Nothing {}

  private record Fibre(CladdingFinder.Found found) implements State {}

  private enum Nothing implements State {
    EMPTY,
    CUT,
    UNSEEN
  }

  private record Place(int column, int row) {}

  private final Grey grey;
  private final CladdingFinder.Found seed;
  private final double rx;
  private final double ry;
  private final RingMap map;
  private final int tone;
  private final double strength;
  private final double level;
  private final Map<Place, State> states = new HashMap<>();

  /** From one place to the next along a row, in half axes of the cladding. */
  private double ux;

  private double uy;

  RowFinder(Grey grey, CladdingFinder.Found seed) {
    this.grey = grey;
    this.seed = seed;
    rx = seed.edge().rxPx();
    ry = seed.edge().ryPx();
    map = new RingMap(grey, rx, ry, COARSE_PX);
    RingMap.Ring ring = map.best(seed.edge().cx(), seed.edge().cy(), 0.1, 0.1, 0, 0.5);
    tone = ring.score() > 0 ? 1 : -1;
    strength = Math.abs(ring.score());
    level = level(seed.edge());
  }

  /** Whether the picture reaches far enough beside a fibre to show enough of another. */
  static boolean hasRoom(Grey grey, CladdingFinder.Found seed) {
    Cladding c = seed.edge();
    double reach = PITCH - FIRST_ALONG - Math.cos(Math.PI * LEAST_VISIBLE);
    return c.cx() - reach * c.rxPx() > 0
        || c.cy() - reach * c.ryPx() > 0
        || c.cx() + reach * c.rxPx() < grey.width() - 1
        || c.cy() + reach * c.ryPx() < grey.height() - 1;
  }

  /** The row that the first fibre stands in; empty if it stands alone. */
  Optional<FibreRow> find() {
    List<Place> across = begun(1, 0);
    Map<Place, State> acrossStates = new HashMap<>(states);
    double[] along = {ux, uy};
    states.clear();
    List<Place> down = begun(0, 1);
    if (across.isEmpty() && down.isEmpty()) {
      return Optional.empty();
    }
    if (fibres(acrossStates) >= fibres(states)) {
      states.clear();
      states.putAll(acrossStates);
      ux = along[0];
      uy = along[1];
    }
    otherRows();
    return Optional.of(collected());
  }

  private static long fibres(Map<Place, State> states) {
    return states.values().stream().filter(s -> s instanceof Fibre).count()
        + (states.containsValue(Nothing.CUT) ? 1 : 0);
  }

  /** The first fibre's row in one direction; empty if no other fibre stands in it. */
  private List<Place> begun(double dx, double dy) {
    ux = PITCH * dx;
    uy = PITCH * dy;
    states.clear();
    states.put(new Place(0, 0), new Fibre(seed));
    List<Place> others = new ArrayList<>();
    for (int side = -1; side <= 1; side += 2) {
      first(side, dx > 0).ifPresent(others::add);
    }
    if (!others.isEmpty()) {
      extend(0);
    }
    return others;
  }

  /** The next fibre to one side, where one or a few may be missing between. */
  private Optional<Place> first(int side, boolean across) {
    for (int steps = 1; steps <= MOST_MISSING + 1; steps++) {
      double x = seed.edge().cx() + side * steps * ux * rx;
      double y = seed.edge().cy() + side * steps * uy * ry;
      double acrossBy = across ? FIRST_ALONG : FIRST_ACROSS * steps;
      double downBy = across ? FIRST_ACROSS * steps : FIRST_ALONG;
      RingMap.Ring ring = map.best(x, y, acrossBy, downBy, tone, LEAST_VISIBLE);
      State state = state(ring, true);
      if (state == Nothing.UNSEEN) {
        return Optional.empty();
      }
      boolean cut = state == Nothing.CUT && steps == 1;
      if (cut || state instanceof Fibre) {
        Place place = new Place(side * steps, 0);
        states.put(place, state);
        double[] at = state instanceof Fibre f ? centre(f) : new double[] {ring.x(), ring.y()};
        ux = side * (at[0] - seed.edge().cx()) / rx / steps;
        uy = side * (at[1] - seed.edge().cy()) / ry / steps;
        return Optional.of(place);
      }
    }
    return Optional.empty();
  }

  /** Looks at all places of a row on either side of those known, as far as the picture goes. */
  private void extend(int row) {
    for (int side = -1; side <= 1; side += 2) {
      for (int column = 0; Math.abs(column) < MOST_PLACES; column += side) {
        Place place = new Place(column, row);
        if (!states.containsKey(place)) {
          State state = looked(place, true);
          states.put(place, state);
          if (state == Nothing.UNSEEN) {
            break;
          }
        }
        refine();
      }
    }
  }

  /** Fits the step from place to place to the fibres found so far. */
  private void refine() {
    double n = 0;
    double c = 0;
    double cc = 0;
    double x = 0;
    double y = 0;
    double cx = 0;
    double cy = 0;
    for (Map.Entry<Place, State> entry : states.entrySet()) {
      if (entry.getValue() instanceof Fibre fibre && entry.getKey().row() == 0) {
        int column = entry.getKey().column();
        n++;
        c += column;
        cc += column * column;
        x += fibre.found().edge().cx() / rx;
        y += fibre.found().edge().cy() / ry;
        cx += column * fibre.found().edge().cx() / rx;
        cy += column * fibre.found().edge().cy() / ry;
      }
    }
    double det = n * cc - c * c;
    if (det > 0) {
      ux = (n * cx - c * x) / det;
      uy = (n * cy - c * y) / det;
    }
  }

  /** Where a place is expected, from the nearest fibre found. */
  private double[] expected(Place place) {
    Place nearest = new Place(0, 0);
    double[] from = {seed.edge().cx(), seed.edge().cy()};
    for (Map.Entry<Place, State> entry : states.entrySet()) {
      if (entry.getValue() instanceof Fibre fibre
          && apart(entry.getKey(), place) < apart(nearest, place)) {
        nearest = entry.getKey();
        from = centre(fibre);
      }
    }
    int columns = place.column() - nearest.column();
    int rows = place.row() - nearest.row();
    return new double[] {
      from[0] + (columns * ux - rows * uy) * rx, from[1] + (columns * uy + rows * ux) * ry
    };
  }

  private static double apart(Place one, Place other) {
    return Math.hypot(one.column() - other.column(), one.row() - other.row());
  }

  private State looked(Place place, boolean gated) {
    double[] at = expected(place);
    return state(map.best(at[0], at[1], NEXT, NEXT, tone, LEAST_VISIBLE), gated);
  }

  /** What stands where a ring stands out most; a faint ring is looked at if not gated. */
  private State state(RingMap.Ring ring, boolean gated) {
    double share = tone * ring.score() / strength;
    boolean whole =
        ring.x() > 1.02 * rx
            && ring.y() > 1.02 * ry
            && ring.x() < grey.width() - 1 - 1.02 * rx
            && ring.y() < grey.height() - 1 - 1.02 * ry;
    if (whole) {
      Optional<CladdingFinder.Found> found =
          gated && share < WHOLE_RING ? Optional.empty() : cladding(ring.x(), ring.y());
      return found.<State>map(Fibre::new).orElse(Nothing.EMPTY);
    }
    if (ring.visible() < LEAST_VISIBLE) {
      return Nothing.UNSEEN;
    }
    return share >= CUT_RING ? Nothing.CUT : Nothing.EMPTY;
  }

  private Optional<CladdingFinder.Found> cladding(double x, double y) {
    return Window.about(grey, x, y, WINDOW * rx, WINDOW * ry)
        .cladding(this::isOfItsLevel)
        .filter(f -> Math.abs(f.edge().rxPx() / rx - 1) < ALIKE)
        .filter(f -> Math.abs(f.edge().ryPx() / ry - 1) < ALIKE)
        .filter(f -> Math.abs(f.edge().cx() - x) < NEXT * rx)
        .filter(f -> Math.abs(f.edge().cy() - y) < NEXT * ry);
  }

  /** An empty hole has no core either, but it is dark: it is not taken for a fibre. */
  private boolean isOfItsLevel(CladdingFinder.Found disk) {
    return Math.abs(level(disk.edge()) / level - 1) < LEVEL_ALIKE;
  }

  /** Mean brightness between core and edge. */
  private double level(Cladding c) {
    double sum = 0;
    int n = 0;
    for (int k = 0; k < 90; k++) {
      for (double share = 0.6; share < 0.9; share += 0.1) {
        double t = 2 * Math.PI * k / 90;
        sum +=
            grey.at(
                c.cx() + share * c.rxPx() * Math.cos(t), c.cy() + share * c.ryPx() * Math.sin(t));
        n++;
      }
    }
    return Math.max(1e-3, sum / n);
  }

  private static double[] centre(Fibre fibre) {
    return new double[] {fibre.found().edge().cx(), fibre.found().edge().cy()};
  }

  /** Rows above and below the first one, one or two pitches apart each. */
  private void otherRows() {
    for (int side = -1; side <= 1; side += 2) {
      int last = 0;
      for (int row = side; Math.abs(row - last) <= 2; row += side) {
        if (isThere(row)) {
          extend(row);
          last = row;
        }
      }
    }
  }

  /** Whether a fibre of a row is found, or its edge along much of the picture's. */
  private boolean isThere(int row) {
    int cut = 0;
    int told = 0;
    boolean there = false;
    Map<Place, State> its = new HashMap<>();
    for (int column = lowest(); column <= highest(); column++) {
      Place place = new Place(column, row);
      State state = looked(place, true);
      its.put(place, state);
      there |= state instanceof Fibre;
      told += state == Nothing.UNSEEN ? 0 : 1;
      cut += state == Nothing.CUT ? 1 : 0;
    }
    there |= cut > 0 && 2 * cut >= told;
    if (there) {
      states.putAll(its);
    }
    return there;
  }

  private int lowest() {
    return columns().min().orElse(0);
  }

  private int highest() {
    return columns().max().orElse(0);
  }

  /** Columns with a fibre. */
  private IntStream columns() {
    return states.entrySet().stream()
        .filter(e -> e.getValue() instanceof Fibre)
        .mapToInt(e -> e.getKey().column());
  }

  private FibreRow collected() {
    int low = lowest();
    int high = highest();
    boolean cut = states.containsValue(Nothing.CUT);
    int[] rows =
        states.entrySet().stream()
            .filter(e -> e.getValue() instanceof Fibre)
            .mapToInt(e -> e.getKey().row())
            .distinct()
            .sorted()
            .toArray();
    boolean endsSeen = true;
    List<Optional<CladdingFinder.Found>> places = new ArrayList<>();
    // Rows that run down the picture are numbered from the left as well.
    boolean acrossPicture = Math.abs(ux) >= Math.abs(uy);
    for (int k = 0; k < rows.length; k++) {
      int row = rows[acrossPicture ? k : rows.length - 1 - k];
      for (int column = low; column <= high; column++) {
        Place place = new Place(column, row);
        State state = states.getOrDefault(place, Nothing.EMPTY);
        if (state == Nothing.EMPTY || state == Nothing.UNSEEN) {
          state = looked(place, false);
        }
        cut |= state == Nothing.CUT;
        places.add(state instanceof Fibre f ? Optional.of(f.found()) : Optional.empty());
      }
      endsSeen &=
          states.get(new Place(low - 1, row)) == Nothing.EMPTY
              && states.get(new Place(high + 1, row)) == Nothing.EMPTY;
    }
    return new FibreRow(high - low + 1, ofOneSize(places), cut, endsSeen);
  }

  private static List<Optional<CladdingFinder.Found>> ofOneSize(
      List<Optional<CladdingFinder.Found>> places) {
    double[] radii =
        places.stream().flatMap(Optional::stream).mapToDouble(f -> f.edge().rPx()).toArray();
    double usual = OrderStats.median(radii);
    return places.stream().map(place -> place.map(found -> sized(found, usual))).toList();
  }

  private static CladdingFinder.Found sized(CladdingFinder.Found found, double usual) {
    Cladding c = found.edge();
    double factor = usual / c.rPx();
    return Math.abs(factor - 1) <= MADE_TO
        ? found
        : new CladdingFinder.Found(
            new Cladding(c.cx(), c.cy(), c.rxPx() * factor, c.ryPx() * factor),
            found.blurPx(),
            found.step());
  }
}
