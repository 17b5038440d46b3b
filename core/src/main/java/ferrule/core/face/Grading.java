package ferrule.core.face;

import ferrule.core.face.GradeReason.Kind;
import ferrule.core.rulebook.Figure;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Grades what was seen on an end face against criteria.
 *
 * <p>A flaw that touches a zone boundary counts wholly in the inner zone. The outcome is what the
 * sizes say; a size within its own uncertainty of a limit makes the grade close, and is told with
 * what the outcome would be on the other side. A picture that cannot show what must be seen is
 * never graded.
 */
public final class Grading {

  /** Standard uncertainties are doubled before a size is held against a limit (95 %, GUM). */
  public static final double COVERAGE_FACTOR = 2;

  private final Criteria criteria;
  private final ClassCriteria rows;
  private final Set<Zone> graded;
  private final boolean array;

  private Grading(Criteria criteria, FaceClass faceClass, boolean array) {
    this.criteria = criteria;
    this.rows =
        criteria
            .of(faceClass)
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        criteria.id() + " has no class " + faceClass.id()));
    this.graded = array ? criteria.arrayZones() : EnumSet.allOf(Zone.class);
    this.array = array;
  }

  /**
   * Grades what a picture shows.
   *
   * @throws IllegalArgumentException if the criteria do not have the class
   */
  public static FaceGrade gradeAny(Criteria criteria, FaceClass faceClass, Examined examined) {
    return examined instanceof Examined.Row row
        ? grade(criteria, faceClass, row)
        : grade(criteria, faceClass, (Examined.Face) examined);
  }

  /**
   * Grades one fibre.
   *
   * @throws IllegalArgumentException if the criteria do not have the class
   */
  public static Grade grade(Criteria criteria, FaceClass faceClass, Examined.Face face) {
    return new Grading(criteria, faceClass, false).grade(face);
  }

  /**
   * Grades a row of fibres, each and as a whole: one failing fibre fails the ferrule, one that is
   * not found leaves it unreadable.
   *
   * @throws IllegalArgumentException if the criteria do not have the class
   */
  public static RowGrade grade(Criteria criteria, FaceClass faceClass, Examined.Row row) {
    Grading grading = new Grading(criteria, faceClass, true);
    List<Grade> fibres = row.fibres().stream().map(grading::grade).toList();
    FaceOutcome outcome = FaceOutcome.CONFORMS;
    for (FaceOutcome worse : List.of(FaceOutcome.REJECTED, FaceOutcome.UNREADABLE)) {
      if (fibres.stream().anyMatch(f -> f.outcome() == worse)) {
        outcome = worse;
      }
    }
    List<GradeReason> reasons = new ArrayList<>();
    for (Kind kind : Kind.values()) {
      Set<String> shared = new LinkedHashSet<>();
      for (int i = 0; i < fibres.size(); i++) {
        for (GradeReason reason : fibres.get(i).reasons()) {
          if (reason.kind() != kind) {
            continue;
          }
          if (kind == Kind.NOTE) {
            shared.add(reason.text());
          } else if (kind != Kind.CONFORMS) {
            reasons.add(new GradeReason(kind, fibreHead(i + 1) + reason.text()));
          }
        }
      }
      shared.forEach(text -> reasons.add(new GradeReason(kind, text)));
    }
    if (outcome == FaceOutcome.CONFORMS) {
      reasons.add(
          0,
          new GradeReason(
              Kind.CONFORMS, "All " + fibres.size() + " fibres conform: " + grading.figures()));
    }
    return new RowGrade(fibres, outcome, fibres.stream().anyMatch(Grade::close), reasons);
  }

  /** How a reason of a row begins that speaks of one fibre, counted from 1. */
  static String fibreHead(int number) {
    return "Fibre " + number + ": ";
  }

  private Grade grade(Examined.Face face) {
    if (face instanceof Examined.Seen seen) {
      return grade(seen);
    }
    return new Grade(
        rows.faceClass(),
        criteria.edition(),
        FaceOutcome.UNREADABLE,
        false,
        false,
        List.of(new GradeReason(Kind.UNREADABLE, ((Examined.Unreadable) face).reason())),
        List.of());
  }

  private Grade grade(Examined.Seen seen) {
    List<GradedFlaw> flaws = new ArrayList<>(seen.flaws().size());
    for (Flaw flaw : seen.flaws()) {
      flaws.add(place(flaws.size() + 1, flaw));
    }
    boolean resolved = seen.resolvableUm() <= criteria.smallest().value();
    List<GradeReason> reasons = new ArrayList<>();
    unreadable(seen, resolved, reasons);
    if (!reasons.isEmpty()) {
      return done(FaceOutcome.UNREADABLE, false, resolved, reasons, flaws);
    }
    Map<CountLimit, List<GradedFlaw>> byLimit = byLimit(flaws);
    byLimit.forEach((limit, within) -> rejected(limit, within, reasons));
    FaceOutcome outcome = reasons.isEmpty() ? FaceOutcome.CONFORMS : FaceOutcome.REJECTED;
    if (reasons.isEmpty()) {
      reasons.add(new GradeReason(Kind.CONFORMS, "No limit is exceeded: " + figures()));
    }
    boolean close = false;
    for (GradedFlaw flaw : flaws) {
      if (flaw.close()) {
        close = true;
        reasons.add(new GradeReason(Kind.CLOSE, closeShown(flaw, byLimit, outcome)));
      }
    }
    notes(seen, flaws, reasons);
    return done(outcome, close, true, reasons, flaws);
  }

  private Grade done(
      FaceOutcome outcome,
      boolean close,
      boolean resolved,
      List<GradeReason> reasons,
      List<GradedFlaw> flaws) {
    return new Grade(
        rows.faceClass(), criteria.edition(), outcome, close, resolved, reasons, flaws);
  }

  private GradedFlaw place(int number, Flaw flaw) {
    Optional<Zone> zone = rows.zoneOf(flaw);
    Optional<CountLimit> limit = zone.flatMap(z -> rows.limit(z, flaw.kind(), flaw.sizeUm()));
    boolean inGraded = zone.filter(graded::contains).isPresent();
    boolean counted = inGraded && limit.filter(l -> l.most().isPresent()).isPresent();
    boolean close = inGraded && limit.flatMap(l -> nearEnd(flaw, l)).isPresent();
    return new GradedFlaw(number, flaw, zone, limit, counted, close);
  }

  /** The end of a row's sizes that a flaw lies within its own uncertainty of, the nearer first. */
  private static Optional<Double> nearEnd(Flaw flaw, CountLimit limit) {
    double low =
        limit.sizes().lowUm() > 0
            ? flaw.sizeUm() - limit.sizes().lowUm()
            : Double.POSITIVE_INFINITY;
    double high = limit.sizes().highUm() - flaw.sizeUm();
    double within = COVERAGE_FACTOR * flaw.sizeUncertaintyUm();
    if (Math.min(low, high) > within) {
      return Optional.empty();
    }
    return Optional.of(low < high ? limit.sizes().lowUm() : limit.sizes().highUm());
  }

  private void unreadable(Examined.Seen seen, boolean resolved, List<GradeReason> reasons) {
    if (!resolved) {
      Figure smallest = criteria.smallest();
      reasons.add(
          new GradeReason(
              Kind.UNREADABLE,
              "The smallest flaw that this picture could show is "
                  + Microns.shown(seen.resolvableUm())
                  + " µm, and "
                  + Microns.plain(smallest.value())
                  + " µm must be seen: "
                  + smallest.provenance().line()));
    }
    // The smaller field of view that microscopes may have covers core and cladding (from memory).
    ZoneBand cladding = rows.zones().get(Zone.B.ordinal());
    if (seen.shownUm() < cladding.outer().value()) {
      reasons.add(
          new GradeReason(
              Kind.UNREADABLE,
              "The picture shows the face only out to a diameter of "
                  + Microns.shown(seen.shownUm())
                  + " µm, and "
                  + cladding.zone().shown()
                  + " reaches out to "
                  + Microns.plain(cladding.outer().value())
                  + " µm: "
                  + cladding.outer().provenance().line()));
    }
  }

  /** The counted flaws by their rows, in the order of the criteria. */
  private Map<CountLimit, List<GradedFlaw>> byLimit(List<GradedFlaw> flaws) {
    Map<CountLimit, List<GradedFlaw>> byLimit = new LinkedHashMap<>();
    for (CountLimit limit : rows.limits()) {
      List<GradedFlaw> within =
          flaws.stream()
              .filter(f -> f.counted() && f.limit().filter(limit::equals).isPresent())
              .toList();
      if (!within.isEmpty()) {
        byLimit.put(limit, within);
      }
    }
    return byLimit;
  }

  private void rejected(CountLimit limit, List<GradedFlaw> within, List<GradeReason> reasons) {
    int most = limit.most().orElse(Integer.MAX_VALUE);
    if (within.size() <= most) {
      return;
    }
    String allowed = limit.shown() + "; " + limit.provenance().line();
    if (most == 0) {
      for (GradedFlaw flaw : within) {
        reasons.add(
            new GradeReason(
                Kind.REJECTED,
                capital(flaw.shown()) + " in " + where(flaw) + ": allowed is " + allowed));
      }
      return;
    }
    reasons.add(
        new GradeReason(
            Kind.REJECTED,
            within.size()
                + " "
                + limit.kind().plural()
                + limit.sizes().shown()
                + " in "
                + limit.zone().shown()
                + ": allowed is "
                + allowed
                + ". They are "
                + within.stream().map(GradedFlaw::shown).collect(Collectors.joining("; "))));
  }

  private String where(GradedFlaw flaw) {
    Zone zone = flaw.zone().orElseThrow();
    double edge = rows.zones().get(zone.ordinal()).outer().value() / 2;
    if (flaw.flaw().farthestUm() <= edge) {
      return zone.shown();
    }
    if (edge - flaw.flaw().nearestUm() <= flaw.flaw().widthUm() / 2) {
      return zone.shown() + ", which it touches from outside";
    }
    return zone.shown()
        + (flaw.flaw().kind() == FlawKind.SCRATCH
            ? ", which it runs into from outside"
            : ", which it reaches into from outside");
  }

  private String closeShown(
      GradedFlaw flaw, Map<CountLimit, List<GradedFlaw>> byLimit, FaceOutcome outcome) {
    CountLimit own = flaw.limit().orElseThrow();
    double end = nearEnd(flaw.flaw(), own).orElseThrow();
    CountLimit other =
        rows.limits(own.zone(), own.kind()).stream()
            .filter(l -> !l.equals(own) && (l.sizes().lowUm() == end || l.sizes().highUm() == end))
            .findFirst()
            .orElseThrow();
    boolean exceeded = other.isExceededBy(size(byLimit, other) + 1);
    for (Map.Entry<CountLimit, List<GradedFlaw>> entry : byLimit.entrySet()) {
      CountLimit limit = entry.getKey();
      int count = entry.getValue().size();
      exceeded |= !limit.equals(other) && limit.isExceededBy(limit.equals(own) ? count - 1 : count);
    }
    FaceOutcome then = exceeded ? FaceOutcome.REJECTED : FaceOutcome.CONFORMS;
    return capital(flaw.shown())
        + " in "
        + own.zone().shown()
        + " lies within its uncertainty of the limit of "
        + Microns.plain(end)
        + " µm: on the other side of it "
        + (then == outcome
            ? "the outcome would be the same"
            : "the outcome would be \"" + then.word() + "\"")
        + "; "
        + other.provenance().line();
  }

  private static int size(Map<CountLimit, List<GradedFlaw>> byLimit, CountLimit limit) {
    return Optional.ofNullable(byLimit.get(limit)).map(Collection::size).orElse(0);
  }

  private void notes(Examined.Seen seen, List<GradedFlaw> flaws, List<GradeReason> reasons) {
    if (array) {
      reasons.add(
          new GradeReason(
              Kind.NOTE,
              "Where a ferrule holds a row of fibres, only zones "
                  + criteria.arrayZones().stream()
                      .sorted()
                      .map(Zone::name)
                      .collect(Collectors.joining(", "))
                  + " are graded: "
                  + criteria.arraySource().line()));
    }
    for (ZoneBand band : rows.zones()) {
      if (graded.contains(band.zone()) && seen.shownUm() < band.outer().value()) {
        reasons.add(
            new GradeReason(
                Kind.NOTE,
                "The picture shows the whole face only out to a diameter of "
                    + Microns.shown(seen.shownUm())
                    + " µm: "
                    + band.zone().shown()
                    + ", out to "
                    + Microns.plain(band.outer().value())
                    + " µm, is graded as far as it is seen"));
      }
    }
    long outside = flaws.stream().filter(f -> f.zone().isEmpty()).count();
    if (outside > 0) {
      reasons.add(
          new GradeReason(
              Kind.NOTE,
              outside
                  + (outside == 1 ? " flaw" : " flaws")
                  + " outside the contact zone: nothing is required there; clean loose debris away"));
    }
  }

  /** "IEC 61300-3-35, 2015, single-mode PC ...; 2 of its 11 figures are from memory: ...". */
  private String figures() {
    long memory = rows.limits().stream().filter(l -> l.provenance().fromMemory()).count();
    int all = rows.limits().size();
    String line =
        rows.limits().get(0).provenance().standard()
            + ", "
            + criteria.edition()
            + ", "
            + rows.faceClass().shown();
    if (memory == 0) {
      return line;
    }
    return line
        + " ("
        + (memory == all ? "all" : memory + " of " + all)
        + " limits from memory: confirm against the standard)";
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
