package ferrule.app.desk.page;

import ferrule.core.plant.Cord;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Instrument;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.CordShift;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Proposal;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Sight;
import ferrule.core.trust.Standing;
import ferrule.core.trust.Subject;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.trust.joint.JointEstimate.Confounded;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.ZeroLevel;
import ferrule.record.chart.ShiftStrip;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * One zero.
 *
 * @param frame what surrounds it
 * @param trust the zero, how far it is trusted and why
 * @param levels each with the windows it is held against
 * @param cords named by a level
 * @param instruments named by a level
 * @param doubts about this zero
 * @param reach the readings that count and name it
 * @param firstReading when the first of them was taken
 * @param lastReading when the last of them was taken
 * @param proposal where its fibres would stand with an estimated shift taken out, if it has one
 * @param wouldBe the same by standing
 * @param confounded what its shift cannot be told from, if anything
 * @param wouldShow how small a trouble its readings would show, in words
 */
public record ZeroPage(
    Frame frame,
    ZeroTrust trust,
    List<Level> levels,
    List<NamedCord> cords,
    List<NamedInstrument> instruments,
    List<DoubtEntry> doubts,
    List<ReachGroup> reach,
    Optional<Instant> firstReading,
    Optional<Instant> lastReading,
    Optional<Proposal> proposal,
    List<WouldBe> wouldBe,
    Optional<Confounded> confounded,
    String wouldShow) {

  private static final int STRIP_WIDTH = 260;
  private static final int STRIP_HEIGHT = 18;

  /**
   * A level with its windows.
   *
   * @param level the level
   * @param power window of the stored power
   * @param verification window of the verification
   * @param shift its estimated shift, if anything was read under it
   */
  public record Level(
      ZeroLevel level, PowerWindow power, VerificationWindow verification, Optional<Shift> shift) {

    /** Whether the stored power lies in its window. */
    public boolean powerHolds() {
      return power.holds(level.power());
    }

    /** "0.05 dB, inside -0.03 to 0.20 dB", "not read; would have to lie ...". */
    public String verificationInWords() {
      return level
          .verification()
          .map(
              v ->
                  Show.db(v.value())
                      + " dB, "
                      + (verification.holds(v) ? "inside " : "outside ")
                      + verification.shown())
          .orElse("not read; it would have to lie in " + verification.shown());
    }
  }

  /**
   * The estimated shift of a level.
   *
   * @param shown in words
   * @param svg the picture of its interval
   * @param reachDb how far the picture reaches to either side, dB
   */
  public record Shift(String shown, String svg, double reachDb) {}

  /**
   * A cord by the name that a level gives.
   *
   * @param id its name
   * @param roles "launch", "receive", "substitution"
   * @param cord what is on record of it
   * @param shift what the zeros that it stood in have in common, if anything was read under them
   */
  public record NamedCord(String id, String roles, Optional<Cord> cord, Optional<CordShift> shift) {

    /** "0.02 dB, standard deviation 0.03 dB, over 2 zeros; cannot be told from cord R1". */
    public String shiftInWords() {
      return shift
          .map(
              s ->
                  Show.db(s.shiftDb())
                      + " dB, standard deviation "
                      + Show.db(s.sdDb())
                      + " dB, over "
                      + Show.count(s.zeros().size(), "zero")
                      + (s.confoundedWith().isEmpty()
                          ? ""
                          : "; cannot be told from " + String.join(" or ", s.confoundedWith())))
          .orElse("nothing read");
    }

    /** "LC-UPC, reference-grade"; "not on record". */
    public static String end(Cord.CordEnd end) {
      String connector = end.connector().map(Object::toString).orElse("connector not on record");
      String grade =
          end.grade().map(CordGrade::word).map(w -> w + "-grade").orElse("grade not on record");
      return connector + ", " + grade;
    }
  }

  /**
   * An instrument by the name that a level gives.
   *
   * @param id its name
   * @param roles "source", "meter"
   * @param instrument what is on record of it
   */
  public record NamedInstrument(String id, String roles, Optional<Instrument> instrument) {}

  /** Puts the page together. */
  public static ZeroPage of(String jobName, JobIndex index, ZeroTrust trust) {
    Judgement judgement = index.judgement();
    Ledger ledger = judgement.ledger();
    String id = trust.zero().id();
    List<AssessedReading> readings =
        ledger.current().stream().filter(r -> r.reading().reference().equals(id)).toList();
    Optional<Proposal> proposal =
        index.proposals().stream().filter(p -> p.reference().equals(id)).findFirst();
    return new ZeroPage(
        new Frame(jobName, Frame.Section.ZEROS, "Zero " + id),
        trust,
        levels(judgement, trust),
        cords(judgement, trust),
        instruments(ledger, trust),
        index.about(Subject.reference(id)),
        ReachGroup.of(ledger, Reach.of(readings)),
        readings.stream().map(r -> r.reading().measuredAt()).min(Instant::compareTo),
        readings.stream().map(r -> r.reading().measuredAt()).max(Instant::compareTo),
        proposal,
        proposal.map(p -> wouldBe(ledger, p)).orElse(List.of()),
        Optional.ofNullable(judgement.estimate().confounded().get(id)),
        Sight.ofZero(judgement.sights(), id));
  }

  private static List<WouldBe> wouldBe(Ledger ledger, Proposal proposal) {
    List<WouldBe> groups = new ArrayList<>();
    for (Standing standing : Standing.values()) {
      List<FibreId> fibres =
          proposal.fibres().stream()
              .filter(f -> f.standing() == standing)
              .map(Proposal.WouldBe::fibre)
              .toList();
      if (!fibres.isEmpty()) {
        groups.add(new WouldBe(standing, fibres.size(), FibreSpan.of(ledger, fibres)));
      }
    }
    return groups;
  }

  private static List<Level> levels(Judgement judgement, ZeroTrust trust) {
    Ledger ledger = judgement.ledger();
    List<ZeroLevel> levels = trust.zero().levels();
    double reach =
        ShiftStrip.reachDb(
            levels.stream().flatMap(l -> judgement.estimate().shift(l).stream()).toList());
    List<Level> shown = new ArrayList<>();
    for (ZeroLevel level : levels) {
      String of = level.wavelength() + " " + level.direction().word();
      boolean inDoubt =
          judgement.doubts().stream()
              .filter(
                  d -> d.kind() == DoubtKind.ZERO_SHIFT || d.kind() == DoubtKind.ZERO_VERIFICATION)
              .flatMap(d -> d.reach().readings().stream())
              .anyMatch(r -> r.level().filter(l -> l == level).isPresent());
      shown.add(
          new Level(
              level,
              ZeroWindows.power(ledger, level),
              ZeroWindows.verification(ledger, trust.zero(), level),
              judgement
                  .estimate()
                  .shift(level)
                  .map(
                      s ->
                          new Shift(
                              ShiftStrip.shown(s),
                              ShiftStrip.svg(
                                  "shift-" + of, of, s, reach, inDoubt, STRIP_WIDTH, STRIP_HEIGHT),
                              reach))));
    }
    return shown;
  }

  /**
   * Fibres that would stand alike.
   *
   * @param standing where
   * @param fibres how many
   * @param spans which
   */
  public record WouldBe(Standing standing, int fibres, List<FibreSpan> spans) {}

  /** How far the pictures of the shifts reach to either side, dB; empty if there is none. */
  public Optional<Double> shiftReachDb() {
    return levels.stream().flatMap(l -> l.shift().stream()).map(Shift::reachDb).findFirst();
  }

  private static List<NamedCord> cords(Judgement judgement, ZeroTrust trust) {
    Set<String> ids = new LinkedHashSet<>();
    for (ZeroLevel level : trust.zero().levels()) {
      ids.add(level.launchCord());
      ids.add(level.receiveCord());
      ids.add(level.substitutionCord());
    }
    ids.remove("");
    List<NamedCord> cords = new ArrayList<>();
    for (String id : ids) {
      Set<String> roles = new LinkedHashSet<>();
      for (ZeroLevel level : trust.zero().levels()) {
        add(roles, "launch", id, level.launchCord());
        add(roles, "receive", id, level.receiveCord());
        add(roles, "substitution", id, level.substitutionCord());
      }
      cords.add(
          new NamedCord(
              id,
              String.join(", ", roles),
              judgement.ledger().cord(id),
              judgement.estimate().cords().stream().filter(c -> c.cord().equals(id)).findFirst()));
    }
    return cords;
  }

  private static List<NamedInstrument> instruments(Ledger ledger, ZeroTrust trust) {
    Set<String> ids = new LinkedHashSet<>();
    for (ZeroLevel level : trust.zero().levels()) {
      ids.add(level.source());
      ids.add(level.meter());
    }
    ids.remove("");
    List<NamedInstrument> instruments = new ArrayList<>();
    for (String id : ids) {
      Set<String> roles = new LinkedHashSet<>();
      for (ZeroLevel level : trust.zero().levels()) {
        add(roles, "source", id, level.source());
        add(roles, "meter", id, level.meter());
      }
      instruments.add(new NamedInstrument(id, String.join(", ", roles), ledger.instrument(id)));
    }
    return instruments;
  }

  private static void add(Set<String> roles, String role, String id, String named) {
    if (id.equals(named)) {
      roles.add(role);
    }
  }
}
