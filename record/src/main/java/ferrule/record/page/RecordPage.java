package ferrule.record.page;

import ferrule.core.Problem;
import ferrule.core.plant.Cord;
import ferrule.core.plant.FibreRanges;
import ferrule.core.trust.Action;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Trust;
import ferrule.core.trust.Walk;
import ferrule.core.trust.ZeroTrust;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Everything that the pages of a record say, apart from the results fibre by fibre.
 *
 * @param judgement what was found
 * @param problems what was wrong with the input
 * @param notes what else a reader of the input must know
 * @param issuedAt time of issue
 * @param version of Ferrule
 * @param doubts numbered entries
 */
public record RecordPage(
    Judgement judgement,
    List<Problem> problems,
    List<String> notes,
    Instant issuedAt,
    String version,
    List<DoubtEntry> doubts) {

  /** Long lists end here on paper, with a count of the rest; the data files have them whole. */
  static final int MOST_ACTIONS = 60;

  static final int MOST_STOPS = 40;
  static final int MOST_ZEROS = 60;
  static final int MOST_PROBLEMS = 40;
  static final int MOST_KIT = 60;

  /** Copies the lists. */
  public RecordPage {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
    doubts = List.copyOf(doubts);
  }

  /** The first sheet. */
  public Cover cover() {
    return new Cover(judgement, problems.size());
  }

  /** Figures that the job's limits and expectations are made of. */
  public List<FigureTable> figures() {
    return FigureTable.used(judgement);
  }

  /** Whether a figure used is from memory. */
  public boolean anyFromMemory() {
    return figures().stream().anyMatch(FigureTable::anyFromMemory);
  }

  /** The zeros shown in full. */
  public List<ZeroTrust> zeros() {
    return first(judgement.zeros(), MOST_ZEROS);
  }

  /** The trusts that occur, to be explained. */
  public Set<Trust> trusts() {
    Set<Trust> trusts = EnumSet.noneOf(Trust.class);
    judgement.zeros().forEach(z -> trusts.add(z.trust()));
    return trusts;
  }

  /** The actions shown. */
  public List<Action> actions() {
    return first(judgement.actions(), MOST_ACTIONS);
  }

  /** The whole walk through the actions. */
  public Walk walk() {
    return judgement.walk();
  }

  /** The stops of the walk that are shown. */
  public List<Walk.Stop> stops() {
    return first(walk().stops(), MOST_STOPS);
  }

  /** The problems shown. */
  public List<Problem> firstProblems() {
    return first(problems, MOST_PROBLEMS);
  }

  /** The first of a long list. */
  public static <T> List<T> first(List<T> list, int most) {
    return list.subList(0, Math.min(most, list.size()));
  }

  /** Instruments or cords shown. */
  public static <T> List<T> firstKit(List<T> list) {
    return first(list, MOST_KIT);
  }

  /** What an action frees, in few words. */
  public static String frees(Action action) {
    return action.frees().isEmpty() ? "none alone" : FibreRanges.shown(action.frees(), 10);
  }

  /** An end of a cord: "LC-UPC, reference". */
  public static String end(Cord.CordEnd end) {
    List<String> parts = new ArrayList<>();
    end.connector().ifPresent(c -> parts.add(c.toString()));
    end.grade().ifPresent(g -> parts.add(g.word()));
    return parts.isEmpty() ? "not on record" : String.join(", ", parts);
  }

  /** The worked example, if any reading has a limit. */
  public Optional<WorkedExample> example() {
    return WorkedExample.of(judgement);
  }

  /** One budget for each kind of fibre and method in use. */
  public Map<String, WorkedExample> budgets() {
    return WorkedExample.budgets(judgement);
  }
}
