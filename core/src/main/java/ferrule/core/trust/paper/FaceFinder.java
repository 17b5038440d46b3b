package ferrule.core.trust.paper;

import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FacePicture;
import ferrule.core.face.FibreOutcome;
import ferrule.core.face.GradedFace;
import ferrule.core.face.PortSubject;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * {@code face-rejected} and {@code face-unseen}: the end faces of every link, by the latest picture
 * of each, found or cleaned.
 *
 * <p>Of two pictures of one face the later taken counts; one without a time counts as the older,
 * and of equal times the last handed in. A rejected face holds back the readings of its fibre where
 * the requirement asks for graded ends; where it does not, it is told and holds nothing back.
 */
public final class FaceFinder implements DoubtFinder {

  /**
   * A picture, its place in the order handed in, its grade if it was examined, and what the one
   * fibre came to that is asked about.
   */
  private record Look(
      int order,
      FacePicture picture,
      @Nullable GradedFace grade,
      @Nullable FibreOutcome fibre,
      List<String> reasons) {}

  /** One end of one fibre and its latest picture, if there is one. */
  private record Face(char letter, LinkEnd end, @Nullable Look look) {

    boolean rejected() {
      return look != null && look.fibre() != null && look.fibre().outcome() == FaceOutcome.REJECTED;
    }

    boolean graded() {
      return look != null
          && look.fibre() != null
          && look.fibre().outcome() != FaceOutcome.UNREADABLE;
    }

    List<String> reasons() {
      return look == null ? List.of() : look.reasons();
    }

    /** "end A at Cellar / C:01". */
    String shown() {
      return "end " + letter + (end.where().isEmpty() ? "" : " at " + end.where());
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    boolean demanded = ledger.requirement().faces() == FaceDemand.ENDS;
    if (!demanded && ledger.job().graded().isEmpty()) {
      return;
    }
    Set<String> shared = portsOfSeveralLinks(ledger);
    Map<String, Map<Integer, Look>> looks = latest(ledger);
    int[] unseenOfLink = new int[ledger.job().links().size()];
    for (int slot = 0; slot < ledger.slots(); slot++) {
      for (Face face : faces(ledger, slot, looks, shared)) {
        unseenOfLink[ledger.linkOf(slot)] += face.graded() ? 0 : 1;
      }
    }
    for (int slot = 0; slot < ledger.slots(); slot++) {
      List<Face> faces = faces(ledger, slot, looks, shared);
      List<Face> rejected = faces.stream().filter(Face::rejected).toList();
      if (!rejected.isEmpty()) {
        out.accept(rejected(ledger, slot, rejected, demanded));
      }
      List<Face> unseen = faces.stream().filter(face -> !face.graded()).toList();
      if (demanded && !unseen.isEmpty()) {
        out.accept(unseen(ledger, slot, unseen, unseenOfLink[ledger.linkOf(slot)], shared, looks));
      }
    }
  }

  /** The latest picture of each fibre at each port, by the name that the crew gave the port. */
  private static Map<String, Map<Integer, Look>> latest(Ledger ledger) {
    Map<FacePicture, GradedFace> grades = new HashMap<>();
    ledger.job().graded().forEach(grade -> grades.put(grade.listed(), grade));
    Map<String, Map<Integer, Look>> latest = new HashMap<>();
    int order = 0;
    for (FacePicture picture : ledger.job().faces()) {
      order++;
      PortSubject subject = PortSubject.of(picture.subject()).orElse(null);
      if (subject == null) {
        continue;
      }
      GradedFace grade = grades.get(picture);
      Map<Integer, Look> atPort = latest.computeIfAbsent(subject.port(), k -> new HashMap<>());
      int last = Math.min(subject.last(), Link.MOST_FIBRES);
      for (int fibre = subject.first(); fibre <= last; fibre++) {
        int place = fibre - subject.first();
        FibreOutcome its = grade == null ? null : grade.fibre(place, subject.fibres());
        List<String> reasons = grade == null ? List.of() : grade.reasonsOf(place, subject.fibres());
        atPort.merge(fibre, new Look(order, picture, grade, its, reasons), FaceFinder::later);
      }
    }
    return latest;
  }

  private static Look later(Look one, Look other) {
    int byTime = takenAt(one).compareTo(takenAt(other));
    return byTime > 0 || (byTime == 0 && one.order() > other.order()) ? one : other;
  }

  private static Instant takenAt(Look look) {
    return look.picture().takenAt().orElse(Instant.MIN);
  }

  /** Names by which a picture could mean the ends of more than one link, or both of one. */
  private static Set<String> portsOfSeveralLinks(Ledger ledger) {
    Set<String> once = new HashSet<>();
    Set<String> several = new HashSet<>();
    for (Link link : ledger.job().links()) {
      for (LinkEnd end : List.of(link.a(), link.b())) {
        for (String name : end.names()) {
          if (!once.add(name)) {
            several.add(name);
          }
        }
      }
    }
    return several;
  }

  private static List<Face> faces(
      Ledger ledger, int slot, Map<String, Map<Integer, Look>> looks, Set<String> shared) {
    Link link = ledger.link(slot);
    int fibre = ledger.fibre(slot).fibre();
    return List.of(
        new Face('A', link.a(), look(link.a(), fibre, looks, shared)),
        new Face('B', link.b(), look(link.b(), fibre, looks, shared)));
  }

  private static @Nullable Look look(
      LinkEnd end, int fibre, Map<String, Map<Integer, Look>> looks, Set<String> shared) {
    Look found = null;
    for (String name : end.names()) {
      Map<Integer, Look> atPort = shared.contains(name) ? null : looks.get(name);
      Look look = atPort == null ? null : atPort.get(fibre);
      if (look != null) {
        found = found == null ? look : later(found, look);
      }
    }
    return found;
  }

  private static Doubt rejected(Ledger ledger, int slot, List<Face> rejected, boolean blocking) {
    FibreId fibre = ledger.fibre(slot);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            rejected.stream()
                .map(face -> face.shown() + ": " + fibre(face).reason())
                .collect(Collectors.joining("; "))));
    for (Face face : rejected) {
      GradedFace grade = grade(face);
      evidence.add(Evidence.of("picture", grade.listed().picture()));
      if (!grade.fibres().isEmpty()) {
        evidence.add(Evidence.of("ferrule", ferrule(grade)));
      }
      evidence.add(Evidence.of("criteria", grade.criteria() + ", " + grade.faceClass().id()));
    }
    List<AssessedReading> current =
        ledger.readings(slot).stream().filter(AssessedReading::current).toList();
    Face first = rejected.get(0);
    List<RejectedFaces.Reason> looks =
        rejected.stream()
            .map(face -> RejectedFaces.Reason.of(grade(face).listed().stage(), face.reasons()))
            .toList();
    String where = rejected.stream().map(Face::shown).collect(Collectors.joining(" and "));
    return new Doubt(
        DoubtKind.FACE_REJECTED,
        Subject.fibre(fibre),
        blocking,
        current.isEmpty() ? Reach.ofFibres(List.of(fibre)) : Reach.of(current),
        evidence,
        RejectedFaces.causes(looks),
        new NextStep(
                "face:" + fibre,
                "Make sure that "
                    + fibre
                    + " is dark, clean it at "
                    + where
                    + ", take another picture and retest it",
                first.end().where(),
                Handling.CLEAN_AND_RETEST)
            .withResults(RejectedFaces.ifClean(looks), RejectedFaces.IF_NOT));
  }

  /** "rejected: 1 of 12 fibres rejected, 0 unreadable". */
  private static String ferrule(GradedFace grade) {
    return grade.outcome().word()
        + ": "
        + count(grade, FaceOutcome.REJECTED)
        + " of "
        + grade.fibres().size()
        + " fibres rejected, "
        + count(grade, FaceOutcome.UNREADABLE)
        + " unreadable";
  }

  private static long count(GradedFace grade, FaceOutcome outcome) {
    return grade.fibres().stream().filter(f -> f.outcome() == outcome).count();
  }

  private static FibreOutcome fibre(Face face) {
    Look look = face.look();
    FibreOutcome fibre = look == null ? null : look.fibre();
    if (fibre == null) {
      throw new IllegalStateException(face.shown() + " was not graded");
    }
    return fibre;
  }

  private static GradedFace grade(Face face) {
    Look look = face.look();
    GradedFace grade = look == null ? null : look.grade();
    if (grade == null) {
      throw new IllegalStateException(face.shown() + " was not graded");
    }
    return grade;
  }

  private static Doubt unseen(
      Ledger ledger,
      int slot,
      List<Face> unseen,
      int unseenOfLink,
      Set<String> shared,
      Map<String, Map<Integer, Look>> looks) {
    FibreId fibre = ledger.fibre(slot);
    Link link = ledger.link(slot);
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            unseen.size() == 2
                ? "both link ends must be graded and are not"
                : unseen.get(0).shown() + " must be graded and is not"));
    evidence.add(Evidence.of("pictures_listed_in_job", ledger.job().faces().size()));
    for (Face face : unseen) {
      Look look = face.look();
      if (look != null) {
        GradedFace grade = look.grade();
        evidence.add(
            Evidence.of(
                "latest_picture",
                look.picture().picture()
                    + (grade == null
                        ? ", not examined"
                        : ", unreadable: " + fibre(face).reason())));
      }
      for (String name : face.end().names()) {
        if (shared.contains(name) && looks.containsKey(name)) {
          evidence.add(
              Evidence.of(
                  "port_not_told_apart",
                  "several link ends are called " + name + ": name the place too"));
        }
      }
    }
    return new Doubt(
        DoubtKind.FACE_UNSEEN,
        Subject.fibre(fibre),
        false,
        Reach.ofFibres(List.of(fibre)),
        evidence,
        Causes.ranked("no picture taken", "picture taken, not graded"),
        new NextStep(
                "faces:" + link.id(),
                "Inspect and grade the end faces of link " + link.id() + " at both ends",
                link.a().where(),
                unseenOfLink * Handling.INSPECT_FACE)
            .withResults(
                "No picture of them is on file: both ends are looked at now",
                "Pictures taken after the last mating turn up: grade those"));
  }
}
