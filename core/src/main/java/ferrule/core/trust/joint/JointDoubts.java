package ferrule.core.trust.joint;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.Direction;
import ferrule.core.trust.AlarmShare;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Separation;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.trust.joint.JointEstimate.Finding;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;

/**
 * Doubts from what the joint estimate found: {@code zero-shift}, {@code direction-bias}, {@code
 * level-step}, {@code level-drift}, {@code panel-high}, {@code position-high}.
 *
 * <p>Where two findings explain the data about equally well both are named, each saying so: the
 * readings cannot tell them apart.
 */
public final class JointDoubts implements DoubtFinder {

  private final JointEstimate estimate;

  /** Doubts of an estimate. */
  public JointDoubts(JointEstimate estimate) {
    this.estimate = estimate;
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Optional<JointFit> fit = estimate.fit();
    if (fit.isEmpty()) {
      return;
    }
    Frame frame = fit.get().frame;
    Set<String> said = new HashSet<>();
    for (Finding finding : estimate.findings()) {
      List<Suspect> together = new ArrayList<>();
      together.add(finding.suspect());
      together.addAll(finding.alternatives());
      for (Suspect suspect : together) {
        List<Suspect> rivals = new ArrayList<>(together);
        rivals.remove(suspect);
        List<Separation> separations =
            rivals.stream()
                .map(r -> suspect == finding.suspect() ? r.effect() : suspect.effect())
                .distinct()
                .flatMap(e -> Optional.ofNullable(finding.separations().get(e)).stream())
                .toList();
        for (Doubt doubt : doubts(ledger, frame, suspect, rivals)) {
          if (said.add(doubt.kind() + " " + doubt.subject())) {
            out.accept(doubt.confoundedWith(separations));
          }
        }
      }
    }
    // What may as well be dear connections is told, but holds no reading back.
    for (Finding finding : estimate.hidden()) {
      List<Separation> separations = List.copyOf(finding.separations().values());
      for (Doubt doubt : doubts(ledger, frame, finding.suspect(), finding.alternatives())) {
        if (said.add(doubt.kind() + " " + doubt.subject())) {
          out.accept(doubt.confoundedWith(separations).withoutBlocking());
        }
      }
    }
  }

  @Override
  public List<AlarmShare> alarms(Ledger ledger) {
    List<AlarmShare> shares = new ArrayList<>();
    estimate
        .looks()
        .forEach(
            (kind, looks) ->
                shares.add(new AlarmShare(kind, isBlocking(kind), looks, Looks.shareOf(kind))));
    return shares;
  }

  private static boolean isBlocking(DoubtKind kind) {
    return kind != DoubtKind.PANEL_HIGH && kind != DoubtKind.POSITION_HIGH;
  }

  private static List<Doubt> doubts(
      Ledger ledger, Frame frame, Suspect suspect, List<Suspect> rivals) {
    Effect effect = suspect.effect();
    if (effect instanceof Effect.Shift shift) {
      return shift(ledger, frame, shift, suspect, rivals);
    }
    if (effect instanceof Effect.Step step) {
      return List.of(step(ledger, frame, step, suspect, rivals));
    }
    if (effect instanceof Effect.Drift drift) {
      return List.of(drift(ledger, frame, drift, suspect, rivals));
    }
    if (effect instanceof Effect.HighPlace place) {
      return List.of(place(ledger, frame, place, suspect, rivals));
    }
    if (effect instanceof Effect.HighPosition position) {
      return List.of(position(ledger, frame, position, suspect, rivals));
    }
    return List.of(bias(ledger, frame, effect, suspect, rivals));
  }

  private static List<AssessedReading> under(Ledger ledger, Zero zero, Part part) {
    return ledger
        .byLevel()
        .of(
            zero,
            level -> part.holds(level.direction() == Direction.A_TO_B, level.wavelength().nm()));
  }

  private static List<Evidence> evidence(
      Frame frame, String what, String name, Suspect suspect, List<Suspect> rivals) {
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", what));
    evidence.add(Evidence.of(name + "_db", suspect.sizeDb()));
    evidence.add(Evidence.of(name + "_sd_db", suspect.sdDb()));
    evidence.add(Evidence.of("fibres", suspect.fibres()));
    evidence.add(Evidence.of("standard_deviations", Math.abs(suspect.ratio())));
    if (!rivals.isEmpty()) {
      Set<String> names = new TreeSet<>();
      rivals.forEach(r -> names.add(named(frame, r)));
      evidence.add(
          Evidence.of(
              "cannot be told from",
              String.join("; ", names) + ": the readings fit about as well"));
    }
    return evidence;
  }

  private static String named(Frame frame, Suspect suspect) {
    Effect effect = suspect.effect();
    String size = signed(suspect.sizeDb());
    int zero = JointEstimate.zeroOf(effect);
    String of = zero < 0 ? "" : frame.zeros.get(zero).id();
    if (effect instanceof Effect.Shift shift) {
      return "zero " + of + shift.part().shown() + " off by " + size;
    }
    if (effect instanceof Effect.Step step) {
      return "a step of " + size + " under zero " + of + step.part().shown();
    }
    if (effect instanceof Effect.Drift drift) {
      return "a drift of " + size + " under zero " + of + drift.part().shown();
    }
    if (effect instanceof Effect.HighPlace place) {
      return "place " + frame.places.get(place.place()) + " high by " + size;
    }
    if (effect instanceof Effect.HighPosition position) {
      return "position " + frame.positions.get(position.position()) + " high by " + size;
    }
    if (effect instanceof Effect.CostlyInside) {
      return Naming.plain(frame, effect) + " that lose " + size + " more than usual each";
    }
    return "the directions apart by " + size;
  }

  private static String signed(double db) {
    return (db > 0 ? "+" : "") + Decibels.shown(db) + " dB";
  }

  private static List<Doubt> shift(
      Ledger ledger, Frame frame, Effect.Shift shift, Suspect suspect, List<Suspect> rivals) {
    Zero zero = frame.zeros.get(shift.zero());
    List<AssessedReading> reach = under(ledger, zero, shift.part());
    String how = suspect.sizeDb() < 0 ? "too low" : "too high";
    String what =
        "readings"
            + shift.part().shown()
            + " lie "
            + Decibels.shown(Math.abs(suspect.sizeDb()))
            + " dB "
            + how
            + ", standard deviation "
            + Decibels.shown(suspect.sdDb())
            + " dB, over "
            + Steps.count(suspect.fibres(), "fibre");
    List<Doubt> doubts = new ArrayList<>();
    doubts.add(
        new Doubt(
            DoubtKind.ZERO_SHIFT,
            Subject.reference(zero.id()),
            true,
            Reach.of(reach),
            evidence(frame, what, "shift", suspect, rivals),
            shiftCauses(suspect.sizeDb(), shift.part()),
            Steps.verify(zero.id(), reach, suspect.sizeDb())));
    if (shift.part().direction().isPresent()) {
      doubts.add(
          new Doubt(
              DoubtKind.DIRECTION_BIAS,
              Subject.reference(zero.id()),
              true,
              Reach.of(reach),
              evidence(
                  frame,
                  "under this zero "
                      + shift.part().direction().get().word()
                      + " reads "
                      + signed(suspect.sizeDb())
                      + " off against the other direction",
                  "bias",
                  suspect,
                  rivals),
              shiftCauses(suspect.sizeDb(), shift.part()),
              Steps.verify(zero.id(), reach, suspect.sizeDb())));
    }
    return doubts;
  }

  private static List<Cause> shiftCauses(double sizeDb, Part part) {
    if (part.nm() != 0 && part.direction().isEmpty()) {
      return Causes.ranked(
          "the zero at " + part.nm() + " nm is wrong",
          "the meter stood at another wavelength",
          "the source changed at " + part.nm() + " nm");
    }
    return sizeDb < 0
        ? Causes.ranked(
            "the zero was set with a dirty or poorly seated connection",
            "the source rose after the zero was set",
            "the launch cord was disturbed at the source",
            "a zero of another method recorded as this one")
        : Causes.ranked(
            "a cord end got dirty or damaged after the zero was set",
            "the launch cord was disturbed at the source",
            "the source fell after the zero was set",
            "more connections in the links than the schedule counts");
  }

  private static Doubt step(
      Ledger ledger, Frame frame, Effect.Step step, Suspect suspect, List<Suspect> rivals) {
    Zero zero = frame.zeros.get(step.zero());
    Instant moment = moment(frame, step.fromSeconds());
    List<AssessedReading> reach =
        under(ledger, zero, step.part()).stream()
            .filter(r -> !r.reading().measuredAt().isBefore(moment))
            .toList();
    String cords = cords(zero, step.part());
    String what =
        "readings"
            + step.part().shown()
            + " step by "
            + signed(suspect.sizeDb())
            + " at "
            + moment
            + (cords.isEmpty() ? "" : "; they share " + cords);
    List<Evidence> evidence = evidence(frame, what, "step", suspect, rivals);
    evidence.add(Evidence.of("moment", moment.toString()));
    if (!cords.isEmpty()) {
      evidence.add(Evidence.of("cords", cords));
    }
    List<Cause> causes =
        suspect.sizeDb() > 0
            ? Causes.ranked(
                "a cord end picked up dirt",
                "a cord end was chipped",
                "the launch cord moved at the source",
                "another panel or cable begins here")
            : Causes.ranked(
                "a cord end was cleaned",
                "the launch cord moved at the source",
                "the source rose",
                "another panel or cable begins here");
    return new Doubt(
        DoubtKind.LEVEL_STEP,
        Subject.reference(zero.id()),
        true,
        Reach.of(reach),
        evidence,
        causes,
        retestFrom(zero, moment, cords, reach, suspect.sizeDb()));
  }

  private static NextStep retestFrom(
      Zero zero, Instant moment, String cords, List<AssessedReading> reach, double sizeDb) {
    NextStep verify = Steps.verify(zero.id(), reach);
    return new NextStep(
            "step:" + zero.id(),
            "Inspect and clean "
                + (cords.isEmpty() ? "the test cords" : cords)
                + ", verify zero "
                + zero.id()
                + ", and retest the first link read after "
                + moment
                + ": if it reads as before the step, retest all read since",
            verify.where(),
            verify.minutes() + Handling.RETEST_LINK)
        .withResults(stepConfirms(sizeDb), stepRefutes(sizeDb));
  }

  /** Of the first cause: dirt picked up if readings stepped up, cleaning if they stepped down. */
  private static String stepConfirms(double sizeDb) {
    String half = Decibels.shown(Math.abs(sizeDb) / 2) + " dB";
    return sizeDb > 0
        ? "With clean cords that link reads about "
            + Decibels.shown(sizeDb)
            + " dB less, "
            + half
            + " at least: it was dirt"
        : "With clean cords that link reads as it did, within "
            + half
            + ": a cord was cleaned at the step, and what was read before it is too high";
  }

  private static String stepRefutes(double sizeDb) {
    String half = Decibels.shown(Math.abs(sizeDb) / 2) + " dB";
    return sizeDb > 0
        ? "It reads as it did, within " + half + ": look at the source's end and at the panel"
        : "It reads higher by more than " + half + ": the source changed; set a new zero";
  }

  private static Instant moment(Frame frame, double seconds) {
    return Instant.ofEpochSecond(frame.firstSecond + (long) seconds);
  }

  /** The cords at the link ends of the levels that a trouble touches. */
  private static String cords(Zero zero, Part part) {
    Set<String> names = new TreeSet<>();
    for (ZeroLevel level : zero.levels()) {
      if (part.holds(level.direction() == Direction.A_TO_B, level.wavelength().nm())) {
        names.add(level.launchCord());
        names.add(level.receiveCord());
      }
    }
    names.remove("");
    return names.isEmpty()
        ? ""
        : (names.size() == 1 ? "cord " : "cords ") + String.join(" and ", names);
  }

  private static Doubt drift(
      Ledger ledger, Frame frame, Effect.Drift drift, Suspect suspect, List<Suspect> rivals) {
    Zero zero = frame.zeros.get(drift.zero());
    List<AssessedReading> reach = under(ledger, zero, drift.part());
    double hours = (drift.toSeconds() - drift.fromSeconds()) / 3600;
    String what =
        "readings"
            + drift.part().shown()
            + " drift by "
            + signed(suspect.sizeDb())
            + " over "
            + Decibels.shown(hours)
            + " h"
            + (drift.course() == Effect.Course.SETTLING ? ", most of it at the start" : "");
    List<Evidence> evidence = evidence(frame, what, "drift", suspect, rivals);
    evidence.add(Evidence.of("hours", hours));
    List<Cause> causes =
        drift.course() == Effect.Course.SETTLING
            ? Causes.ranked(
                "the source was not warmed up", "the room's temperature changed", "the battery")
            : drift.part().nm() != 0
                ? Causes.ranked("the source drifts", "the room's temperature changed")
                : Causes.ranked(
                    "the source was not warmed up",
                    "the room's temperature changed",
                    "a cord end wears",
                    "the battery");
    return new Doubt(
        DoubtKind.LEVEL_DRIFT,
        Subject.reference(zero.id()),
        true,
        Reach.of(reach),
        evidence,
        causes,
        Steps.verify(zero.id(), reach, suspect.sizeDb()));
  }

  private static List<AssessedReading> readingsOf(Frame frame, Ledger ledger, Effect effect) {
    List<AssessedReading> readings = new ArrayList<>();
    for (int i = 0; i < frame.fibres(); i++) {
      boolean touched = false;
      for (int r = frame.start[i]; r < frame.start[i + 1] && !touched; r++) {
        touched = effect.at(frame, i, r) != 0;
      }
      if (touched) {
        for (AssessedReading reading : ledger.readings(frame.slot[i])) {
          if (reading.current()) {
            readings.add(reading);
          }
        }
      }
    }
    readings.sort(Comparator.comparingInt(AssessedReading::index));
    return readings;
  }

  private static Doubt place(
      Ledger ledger, Frame frame, Effect.HighPlace place, Suspect suspect, List<Suspect> rivals) {
    String name = frame.places.get(place.place());
    List<AssessedReading> reach = readingsOf(frame, ledger, place);
    String what =
        Steps.count(suspect.fibres(), "fibre")
            + " lie "
            + Decibels.shown(suspect.sizeDb())
            + " dB above their like, standard deviation "
            + Decibels.shown(suspect.sdDb())
            + " dB";
    return new Doubt(
        DoubtKind.PANEL_HIGH,
        new Subject(Subject.Type.PLACE, name),
        false,
        Reach.of(reach),
        evidence(frame, what, "height", suspect, rivals),
        Causes.ranked(
            "a batch of poor pigtails or adapters",
            "dust behind the panel",
            "fibres bent where they enter",
            "more connections than the schedule counts"),
        new NextStep(
                "panel:" + name,
                "Inspect two ports of "
                    + name
                    + " front and back, and retest two links with another pair of cords",
                name,
                2 * Handling.CLEAN_AND_RETEST)
            .withResults(
                "With other cords and clean ports both links still read about "
                    + Decibels.shown(suspect.sizeDb())
                    + " dB above their like",
                "They come down by "
                    + Decibels.shown(suspect.sizeDb() / 2)
                    + " dB or more: it was the cords or dust"));
  }

  private static Doubt position(
      Ledger ledger,
      Frame frame,
      Effect.HighPosition position,
      Suspect suspect,
      List<Suspect> rivals) {
    int number = frame.positions.get(position.position());
    List<AssessedReading> reach = readingsOf(frame, ledger, position);
    String what =
        "fibre "
            + number
            + " lies "
            + Decibels.shown(suspect.sizeDb())
            + " dB above the others in "
            + Steps.count(suspect.fibres(), "link");
    List<Evidence> evidence = evidence(frame, what, "height", suspect, rivals);
    evidence.add(Evidence.of("position", number));
    return new Doubt(
        DoubtKind.POSITION_HIGH,
        Subject.JOB,
        false,
        Reach.of(reach),
        evidence,
        Causes.ranked(
            "that position of a test cord is dirty or damaged",
            "a tilt or dirt in the array connectors",
            "a fault of assembly that repeats"),
        new NextStep(
                "position:" + number,
                "Clean and inspect position "
                    + number
                    + " of the test cords, and retest three links of it",
                Steps.commonPlace(reach),
                Handling.INSPECT_FACE + 3 * Handling.RETEST_LINK)
            .withResults(
                "Once clean, fibre "
                    + number
                    + " comes down by about "
                    + Decibels.shown(suspect.sizeDb())
                    + " dB in the three links",
                "It comes down by less than "
                    + Decibels.shown(suspect.sizeDb() / 2)
                    + " dB: look into the links' own array connectors"));
  }

  private static Doubt bias(
      Ledger ledger, Frame frame, Effect bias, Suspect suspect, List<Suspect> rivals) {
    List<AssessedReading> reach =
        readingsOf(frame, ledger, bias).stream().filter(r -> bothWays(ledger, r)).toList();
    Set<String> zeros = new TreeSet<>();
    reach.forEach(r -> zeros.add(r.reading().reference()));
    String what =
        "A-B reads "
            + signed(suspect.sizeDb())
            + " against B-A, standard deviation "
            + Decibels.shown(suspect.sdDb())
            + " dB; the mean of both hides it";
    return new Doubt(
        DoubtKind.DIRECTION_BIAS,
        Subject.JOB,
        true,
        Reach.of(reach),
        evidence(frame, what, "bias", suspect, rivals),
        Causes.ranked(
            "one of the two zeros is wrong",
            "a cord end used in one direction only is dirty or worn",
            "the two meters disagree"),
        Steps.verify(zeros.isEmpty() ? "" : zeros.iterator().next(), reach)
            .withResults(
                "One of the two zeros reads "
                    + Decibels.shown(Math.abs(suspect.sizeDb()) / 2)
                    + " dB or more off its first verification",
                "Both zeros hold: look at cord ends that were used in one direction only"));
  }

  private static boolean bothWays(Ledger ledger, AssessedReading reading) {
    for (AssessedReading other : ledger.readings(reading.slot())) {
      if (other.current() && other.forward() != reading.forward() && other.nm() == reading.nm()) {
        return true;
      }
    }
    return false;
  }
}
