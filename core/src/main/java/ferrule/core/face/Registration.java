package ferrule.core.face;

import ferrule.core.face.FaceComparison.Turn;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Finds how two pictures of one face lie to each other, by their flaws: any turn about the
 * cladding's centre and a small shift, for two fits of the centre differ a little.
 *
 * <p>Each pair of flaws alike in kind, size, tone and distance from the centre proposes a turn. The
 * turn under which most flaws fit is refined by least squares (the plane case of the orthogonal
 * Procrustes problem, Schönemann 1966) and kept if it is no coincidence: with N pairs alike in size
 * on unrelated faces of radius R, about {@code sum 4 r t/R^2} of them lie at like distances r
 * within t, each proposes a turn, and under it the others fit by chance in a number that is Poisson
 * with mean {@code N t^2/R^2}. It must also fit better than every clearly different turn.
 */
final class Registration {

  /** Two fits of one cladding may lie so far apart, µm; assumed, no source. */
  private static final double MOST_SHIFT_UM = 2.5;

  /** How far apart one flaw may seem before the shift is known, µm. */
  private static final double COARSE_UM = 3;

  /** How far apart one flaw may seem once turn and shift are known, µm; assumed, no source. */
  static final double FINE_UM = 1.5;

  /** Flaws are spread over this radius, µm: the contact zone. */
  private static final double FACE_RADIUS_UM = 125;

  /** A turn is believed if unrelated faces would show one as good less often than this. */
  private static final double BY_CHANCE = 0.01;

  /** More flaws than these, the largest, add time and no certainty. */
  private static final int MOST_FLAWS = 120;

  /** Turns nearer than this are one turn, radians. */
  private static final double SAME_TURN = Math.toRadians(6);

  /** A flaw seen before and one seen after. */
  record Pair(Flaw before, Flaw after) {}

  /** A turn and a shift: where a flaw seen before should lie after. */
  record Placing(double radians, double shiftX, double shiftY) {

    /** Distance between where a flaw should lie and where another lies, µm. */
    double miss(Flaw before, Flaw after) {
      double cos = Math.cos(radians);
      double sin = Math.sin(radians);
      return Math.hypot(
          cos * before.xUm() - sin * before.yUm() + shiftX - after.xUm(),
          sin * before.xUm() + cos * before.yUm() + shiftY - after.yUm());
    }
  }

  /** What was found: nothing can correspond, a placing, or neither. */
  record Result(boolean nothingAlike, Optional<Placing> placing, Optional<Turn> turn, String why) {}

  private final List<Flaw> before;
  private final List<Flaw> after;
  private final List<Pair> alike = new ArrayList<>();

  private Registration(List<Flaw> before, List<Flaw> after) {
    this.before = largest(before);
    this.after = largest(after);
    for (Flaw one : this.before) {
      for (Flaw other : this.after) {
        if (alike(one, other)) {
          alike.add(new Pair(one, other));
        }
      }
    }
  }

  static Result of(List<Flaw> before, List<Flaw> after) {
    return new Registration(before, after).find();
  }

  private static List<Flaw> largest(List<Flaw> flaws) {
    return flaws.stream()
        .sorted(Comparator.comparingDouble(Flaw::lengthUm).reversed())
        .limit(MOST_FLAWS)
        .toList();
  }

  /** Whether two flaws could be one by kind, tone and size, wherever they lie. */
  static boolean alike(Flaw one, Flaw other) {
    return one.kind() == other.kind()
        && one.contrast() * other.contrast() >= 0
        && near(one.sizeUm(), other.sizeUm(), 0.5, 0.15, uncertainty(one, other))
        && near(one.lengthUm(), other.lengthUm(), 2, 0.25, uncertainty(one, other));
  }

  private static double uncertainty(Flaw one, Flaw other) {
    return Grading.COVERAGE_FACTOR * Math.hypot(one.sizeUncertaintyUm(), other.sizeUncertaintyUm());
  }

  private static boolean near(double a, double b, double um, double share, double uncertainty) {
    return Math.abs(a - b) <= um + share * Math.max(a, b) + uncertainty;
  }

  private static double radius(Flaw flaw) {
    return Math.hypot(flaw.xUm(), flaw.yUm());
  }

  private static double angle(Flaw flaw) {
    return Math.atan2(flaw.yUm(), flaw.xUm());
  }

  private record Candidate(Placing placing, List<Pair> fitting) {}

  private Result find() {
    List<Pair> proposing =
        alike.stream()
            .filter(p -> Math.abs(radius(p.before()) - radius(p.after())) <= COARSE_UM)
            .toList();
    if (proposing.isEmpty()) {
      return new Result(true, Optional.empty(), Optional.empty(), "");
    }
    List<Candidate> candidates = new ArrayList<>(proposing.size());
    for (Pair pair : proposing) {
      candidates.add(refined(angle(pair.after()) - angle(pair.before())));
    }
    Candidate best = candidates.get(0);
    for (Candidate candidate : candidates) {
      if (better(candidate, best)) {
        best = candidate;
      }
    }
    int matches = best.fitting().size();
    double chance = byChance(matches);
    if (chance > BY_CHANCE) {
      return untold(
          matches == 1
              ? "Only one flaw is alike in both pictures, which does not tell how the face was"
                  + " turned"
              : "Too few flaws are alike in both pictures to tell how the face was turned");
    }
    for (Candidate other : candidates) {
      double apart = other.placing().radians() - best.placing().radians();
      if (Math.abs(Math.IEEEremainder(apart, 2 * Math.PI)) > SAME_TURN
          && other.fitting().size() >= matches) {
        return untold(
            "The flaws fit as well when the face is turned by another "
                + Math.round(Math.abs(Math.toDegrees(Math.IEEEremainder(apart, 2 * Math.PI))))
                + " degrees");
      }
    }
    Placing placing = best.placing();
    return new Result(
        false,
        Optional.of(placing),
        Optional.of(
            new Turn(
                Math.toDegrees(Math.IEEEremainder(placing.radians(), 2 * Math.PI)),
                placing.shiftX(),
                placing.shiftY(),
                matches,
                chance)),
        "");
  }

  private static Result untold(String why) {
    return new Result(false, Optional.empty(), Optional.empty(), why);
  }

  private static boolean better(Candidate one, Candidate other) {
    int more = one.fitting().size() - other.fitting().size();
    return more > 0 || (more == 0 && misses(one) < misses(other));
  }

  private static double misses(Candidate candidate) {
    double sum = 0;
    for (Pair pair : candidate.fitting()) {
      sum += candidate.placing().miss(pair.before(), pair.after());
    }
    return sum;
  }

  /** A proposed turn, with the shift and the turn that fit its flaws best. */
  private Candidate refined(double radians) {
    Placing placing = new Placing(radians, 0, 0);
    List<Pair> fitting = fitting(alike, placing, COARSE_UM);
    for (int round = 0; round < 3; round++) {
      placing = fit(fitting, placing);
      fitting = fitting(alike, placing, round == 0 ? COARSE_UM : FINE_UM);
    }
    return new Candidate(placing, fitting);
  }

  /** Pairs that fit, nearest first, each flaw once. */
  static List<Pair> fitting(List<Pair> pairs, Placing placing, double withinUm) {
    List<Pair> near =
        pairs.stream()
            .filter(p -> placing.miss(p.before(), p.after()) <= withinUm)
            .sorted(Comparator.comparingDouble(p -> placing.miss(p.before(), p.after())))
            .toList();
    List<Pair> chosen = new ArrayList<>();
    for (Pair pair : near) {
      if (chosen.stream()
          .noneMatch(c -> c.before() == pair.before() || c.after() == pair.after())) {
        chosen.add(pair);
      }
    }
    return chosen;
  }

  /** Least squares; a shift too large to be one of two fitted centres is not believed. */
  private static Placing fit(List<Pair> pairs, Placing fallback) {
    if (pairs.size() < 2) {
      return fallback;
    }
    double bx = 0;
    double by = 0;
    double ax = 0;
    double ay = 0;
    for (Pair pair : pairs) {
      bx += pair.before().xUm() / pairs.size();
      by += pair.before().yUm() / pairs.size();
      ax += pair.after().xUm() / pairs.size();
      ay += pair.after().yUm() / pairs.size();
    }
    double dot = 0;
    double cross = 0;
    for (Pair pair : pairs) {
      double x = pair.before().xUm() - bx;
      double y = pair.before().yUm() - by;
      double u = pair.after().xUm() - ax;
      double v = pair.after().yUm() - ay;
      dot += x * u + y * v;
      cross += x * v - y * u;
    }
    double radians = Math.atan2(cross, dot);
    double shiftX = ax - Math.cos(radians) * bx + Math.sin(radians) * by;
    double shiftY = ay - Math.sin(radians) * bx - Math.cos(radians) * by;
    return Math.hypot(shiftX, shiftY) <= MOST_SHIFT_UM
        ? new Placing(radians, shiftX, shiftY)
        : fallback;
  }

  /** Expected number of turns under which so many flaws of unrelated faces fit. */
  private double byChance(int matches) {
    double area = FACE_RADIUS_UM * FACE_RADIUS_UM;
    double turns = 0;
    for (Pair pair : alike) {
      turns += Math.min(1, 4 * Math.max(radius(pair.before()), COARSE_UM) * COARSE_UM / area);
    }
    double mean = alike.size() * COARSE_UM * COARSE_UM / area;
    double term = Math.exp(-mean);
    for (int k = 0; k < matches - 1; k++) {
      term *= mean / (k + 1);
    }
    double atLeast = 0;
    for (int k = matches - 1; k < matches + 200 && term > 0; k++) {
      atLeast += term;
      term *= mean / (k + 1);
    }
    return turns * atLeast;
  }
}
