package ferrule.app.desk.page;

import ferrule.core.Problem;
import ferrule.core.job.Requirement;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.Action;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Standing;
import ferrule.core.trust.Trust;
import ferrule.core.trust.VerificationInterval;
import ferrule.core.trust.Walk;
import ferrule.core.trust.ZeroTrust;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Where the job stands and what to do next.
 *
 * @param frame what surrounds it
 * @param requirement what must be met
 * @param fibres how many are scheduled
 * @param standings how many stand where
 * @param blocking the blocking doubts that reach most fibres
 * @param blockingTotal how many block
 * @param actions the first of them, or all
 * @param actionsTotal how many there are
 * @param stops of the walk, the first of them, or all
 * @param walk all of it
 * @param zeros those that cannot be trusted first
 * @param zerosTotal how many there are
 * @param open why fibres are open, the commonest reason first
 * @param openReasons how many different reasons there are
 * @param problems of the take-in, the first of them
 * @param problemsTotal how many there are
 * @param notes of the take-in
 * @param verifyEvery after how many links a zero is best verified again
 * @param alarm how often such doubts are false, a sentence without a full stop; may be empty
 */
public record TodayPage(
    Frame frame,
    Requirement requirement,
    int fibres,
    List<StandingCount> standings,
    List<DoubtEntry> blocking,
    long blockingTotal,
    List<ActionEntry> actions,
    int actionsTotal,
    List<Walk.Stop> stops,
    Walk walk,
    List<ZeroTrust> zeros,
    int zerosTotal,
    List<OpenReason> open,
    int openReasons,
    List<Problem> problems,
    int problemsTotal,
    List<String> notes,
    VerificationInterval verifyEvery,
    String alarm) {

  /** Doubts shown before the reader is sent to the page of doubts. */
  static final int DOUBTS = 8;

  /** Actions shown before the reader asks for all. */
  static final int ACTIONS = 12;

  /** Stops of the walk shown before the reader asks for all. */
  static final int STOPS = 12;

  /** Zeros shown before the reader is sent to the page of zeros. */
  static final int ZEROS = 12;

  /** Reasons for being open that are shown. */
  static final int REASONS = 8;

  /** Problems of the take-in that are shown. */
  static final int PROBLEMS = 40;

  /**
   * Something to do.
   *
   * @param action what, where, and what it brings
   * @param frees the fibres it frees
   */
  public record ActionEntry(Action action, List<FibreSpan> frees) {}

  /**
   * Why some fibres are open.
   *
   * @param reason in words
   * @param fibres how many
   * @param spans which
   */
  public record OpenReason(String reason, int fibres, List<FibreSpan> spans) {}

  /**
   * Puts the page together.
   *
   * @param allActions whether every action is to be shown
   */
  public static TodayPage of(
      String jobName,
      JobIndex index,
      List<Problem> problems,
      List<String> notes,
      boolean allActions) {
    Judgement judgement = index.judgement();
    List<DoubtEntry> blocking =
        index.doubts().stream()
            .filter(d -> d.doubt().blocking())
            .sorted(Comparator.comparingInt((DoubtEntry d) -> -d.doubt().reach().fibres().size()))
            .toList();
    Ledger ledger = judgement.ledger();
    List<Action> actions = judgement.actions();
    Walk walk = judgement.walk();
    List<ZeroTrust> zeros =
        judgement.zeros().stream()
            .sorted(Comparator.comparing((ZeroTrust z) -> z.trust(), Comparator.reverseOrder()))
            .toList();
    List<OpenReason> open = open(judgement);
    return new TodayPage(
        new Frame(jobName, Frame.Section.TODAY, "Today"),
        ledger.requirement(),
        judgement.fibres().size(),
        StandingCount.of(judgement.fibres()),
        first(blocking, DOUBTS),
        blocking.size(),
        (allActions ? actions : first(actions, ACTIONS))
            .stream().map(a -> new ActionEntry(a, FibreSpan.of(ledger, a.frees()))).toList(),
        actions.size(),
        allActions ? walk.stops() : first(walk.stops(), STOPS),
        walk,
        first(zeros, ZEROS),
        zeros.size(),
        first(open, REASONS),
        open.size(),
        first(problems, PROBLEMS),
        problems.size(),
        notes,
        VerificationInterval.of(judgement),
        judgement.alarm().shown());
  }

  private static <T> List<T> first(List<T> list, int most) {
    return list.subList(0, Math.min(list.size(), most));
  }

  private static List<OpenReason> open(Judgement judgement) {
    Map<String, List<FibreId>> byReason = new LinkedHashMap<>();
    for (FibreJudgement fibre : judgement.fibres()) {
      if (fibre.standing() == Standing.OPEN) {
        String reason = String.join("; ", fibre.reasons());
        byReason
            .computeIfAbsent(
                reason.isEmpty() ? "Something required is missing" : reason, k -> new ArrayList<>())
            .add(fibre.fibre());
      }
    }
    return byReason.entrySet().stream()
        .map(
            e ->
                new OpenReason(
                    e.getKey(),
                    e.getValue().size(),
                    FibreSpan.of(judgement.ledger(), e.getValue())))
        .sorted(Comparator.comparingInt(r -> -r.fibres()))
        .toList();
  }

  /** Where the job stands, in a sentence. */
  public String standing() {
    if (fibres == 0) {
      return "No fibre is scheduled yet.";
    }
    if (standings.size() == 1) {
      Standing only = standings.get(0).standing();
      return fibres == 1
          ? "The one fibre is " + only.word() + "."
          : "All " + fibres + " fibres are " + only.word() + ".";
    }
    return "Of " + fibres + " fibres, " + StandingCount.sentence(standings) + ".";
  }

  /** What the first actions would bring, in a sentence; empty if there is nothing to do. */
  public String prospect() {
    if (actions.isEmpty()) {
      return "";
    }
    int few = Math.min(3, actions.size());
    double minutes = 0;
    int freed = 0;
    int stop = 0;
    for (ActionEntry entry : actions.subList(0, few)) {
      if (entry.action().stop() != stop) {
        stop = entry.action().stop();
        minutes += walk.stops().get(stop - 1).setUpMinutes();
      }
      minutes += entry.action().minutes();
      freed += entry.action().frees().size();
    }
    String which = few == 1 ? "The first action takes" : "The first " + few + " actions take";
    return which
        + " about "
        + Show.minutes(minutes)
        + ", walking and setting up included, and, if all turns out well, "
        + (few == 1 ? "frees " : "free ")
        + Show.count(freed, "fibre")
        + ".";
  }

  /** Whether any zero shown is other than fresh or verified. */
  public boolean zerosWantAttention() {
    return zeros.stream().anyMatch(z -> z.trust() != Trust.FRESH && z.trust() != Trust.VERIFIED);
  }
}
