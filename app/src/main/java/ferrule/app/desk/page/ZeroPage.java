package ferrule.app.desk.page;

import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.ZeroLevel;
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
    Optional<Instant> lastReading) {

  /**
   * A level with its windows.
   *
   * @param level the level
   * @param power window of the stored power
   * @param verification window of the verification
   */
  public record Level(ZeroLevel level, PowerWindow power, VerificationWindow verification) {

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
   * A cord by the name that a level gives.
   *
   * @param id its name
   * @param roles "launch", "receive", "substitution"
   * @param cord what is on record of it
   */
  public record NamedCord(String id, String roles, Optional<Cord> cord) {

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
    return new ZeroPage(
        new Frame(jobName, Frame.Section.ZEROS, "Zero " + id),
        trust,
        trust.zero().levels().stream()
            .map(
                l ->
                    new Level(
                        l,
                        ZeroWindows.power(ledger, l),
                        ZeroWindows.verification(ledger, trust.zero(), l)))
            .toList(),
        cords(ledger, trust),
        instruments(ledger, trust),
        index.about(Subject.reference(id)),
        ReachGroup.of(ledger, Reach.of(readings)),
        readings.stream().map(r -> r.reading().measuredAt()).min(Instant::compareTo),
        readings.stream().map(r -> r.reading().measuredAt()).max(Instant::compareTo));
  }

  private static List<NamedCord> cords(Ledger ledger, ZeroTrust trust) {
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
      cords.add(new NamedCord(id, String.join(", ", roles), ledger.cord(id)));
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
