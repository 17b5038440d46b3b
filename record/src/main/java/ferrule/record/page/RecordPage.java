package ferrule.record.page;

import ferrule.core.Problem;
import ferrule.core.application.Application;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.JobApplications;
import ferrule.core.application.ShippedApplications;
import ferrule.core.array.ArraySummary;
import ferrule.core.array.JobArrays;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.GradedFace;
import ferrule.core.job.Job;
import ferrule.core.plant.Cord;
import ferrule.core.plant.FibreRanges;
import ferrule.core.trust.Action;
import ferrule.core.trust.CordShift;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Proposal;
import ferrule.core.trust.Proposals;
import ferrule.core.trust.Sight;
import ferrule.core.trust.Trust;
import ferrule.core.trust.VerificationInterval;
import ferrule.core.trust.Walk;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.trust.joint.JointEstimate.Confounded;
import ferrule.core.zero.ZeroLevel;
import ferrule.record.data.Changes;
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
 * @param faces end faces to be shown, the worst first
 * @param wanted the links against the applications that the job wants; empty if it wants none
 * @param proof how the record can be checked; empty for pages that are no record
 * @param changes what is otherwise than in the issue before; empty if this is the first
 */
public record RecordPage(
    Judgement judgement,
    List<Problem> problems,
    List<String> notes,
    Instant issuedAt,
    String version,
    List<DoubtEntry> doubts,
    List<FaceEntry> faces,
    Optional<JobApplications> wanted,
    Optional<Proof> proof,
    Optional<Changes> changes) {

  /**
   * What a reader on paper compares with what is in the folder.
   *
   * @param entries how many entries the job has
   * @param head hash of the last
   * @param fingerprint of the key that signs; empty if the record is not signed
   */
  public record Proof(long entries, String head, Optional<String> fingerprint) {}

  /** With the applications that the job wants. */
  public RecordPage(
      Judgement judgement,
      List<Problem> problems,
      List<String> notes,
      Instant issuedAt,
      String version,
      List<DoubtEntry> doubts,
      List<FaceEntry> faces,
      Optional<Proof> proof,
      Optional<Changes> changes) {
    this(
        judgement,
        problems,
        notes,
        issuedAt,
        version,
        doubts,
        faces,
        wanted(judgement),
        proof,
        changes);
  }

  /** Without pictures of end faces, and without proof. */
  public RecordPage(
      Judgement judgement,
      List<Problem> problems,
      List<String> notes,
      Instant issuedAt,
      String version,
      List<DoubtEntry> doubts) {
    this(
        judgement,
        problems,
        notes,
        issuedAt,
        version,
        doubts,
        FaceEntry.of(judgement.ledger().job().graded(), face -> Optional.empty()),
        Optional.empty(),
        Optional.empty());
  }

  /** Links listed under what is wanted, on paper. */
  static final int MOST_WANTING = 60;

  /** Long lists end here on paper, with a count of the rest; the data files have them whole. */
  static final int MOST_ACTIONS = 60;

  /** Changed fibres on paper. */
  static final int MOST_CHANGES = 120;

  static final int MOST_STOPS = 40;
  static final int MOST_ZEROS = 60;
  static final int MOST_PROBLEMS = 40;
  static final int MOST_KIT = 60;
  static final int MOST_ARRAYS = 60;

  /** Copies the lists. */
  public RecordPage {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
    doubts = List.copyOf(doubts);
    faces = List.copyOf(faces);
  }

  /** The first sheet. */
  public Cover cover() {
    return new Cover(judgement, problems.size());
  }

  /** "12 grades of pictures: 9 conform, 2 rejected, 1 unreadable"; empty if there are none. */
  public String facesInShort() {
    List<GradedFace> graded = judgement.ledger().job().graded();
    if (graded.isEmpty()) {
      return "";
    }
    StringBuilder line = new StringBuilder(Show.count(graded.size(), "picture")).append(" graded");
    String between = ": ";
    for (FaceOutcome outcome : FaceOutcome.values()) {
      long count = graded.stream().filter(face -> face.outcome() == outcome).count();
      line.append(between).append(outcome.counted(count));
      between = ", ";
    }
    return line.toString();
  }

  /** The array links shown. */
  public List<ArraySummary> arrays() {
    Job job = judgement.ledger().job();
    return new JobArrays(job.parts(), job.positions()).summaries(MOST_ARRAYS);
  }

  /** How many array links there are besides. */
  public int arraysLeft() {
    Job job = judgement.ledger().job();
    return Math.max(0, new JobArrays(job.parts(), List.of()).links().size() - MOST_ARRAYS);
  }

  /** How many faces would be shown besides, were there room. */
  public int facesLeft() {
    return FaceEntry.worst(judgement.ledger().job().graded()).size() - faces.size();
  }

  private static Optional<JobApplications> wanted(Judgement judgement) {
    List<String> names = judgement.ledger().requirement().applications();
    if (names.isEmpty()) {
      return Optional.empty();
    }
    List<Application> wanted =
        ShippedApplications.all().stream()
            .filter(a -> names.stream().anyMatch(a::isCalled))
            .toList();
    return Optional.of(JobApplications.of(judgement, wanted));
  }

  /** The fibres changed since the issue before, the first of them. */
  public static List<Changes.Fibre> shown(Changes changes) {
    return first(changes.fibres(), MOST_CHANGES);
  }

  /** Links not shown to carry what is wanted, the first of them. */
  public static List<ApplicationCheck> wanting(JobApplications wanted) {
    return first(wanted.wanting(), MOST_WANTING);
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

  /** Every trust there is, for the key. */
  public List<Trust> everyTrust() {
    return List.of(Trust.values());
  }

  /** After how many links a zero is best verified again. */
  public VerificationInterval verifyEvery() {
    return VerificationInterval.of(judgement);
  }

  /** "-0.31 (0.02)": the estimated shift of a level and its standard deviation, dB. */
  public String shift(ZeroLevel level) {
    return judgement
        .estimate()
        .shift(level)
        .map(s -> Show.db(s.shiftDb()) + " (" + Show.db(s.sdDb()) + ")")
        .orElse("no readings");
  }

  /** How small a trouble the readings under a zero would show, in words. */
  public String wouldShow(ZeroTrust zero) {
    return Sight.ofZero(judgement.sights(), zero.zero().id());
  }

  /** What the shift of a zero cannot be told from, in words; empty if it can be told. */
  public String confoundedWith(ZeroTrust zero) {
    Confounded confounded = judgement.estimate().confounded().get(zero.zero().id());
    return confounded == null ? "" : String.join(" or ", confounded.with());
  }

  /** What would tell the shift of a zero from these, one line a reading. */
  public List<String> separating(ZeroTrust zero) {
    Confounded confounded = judgement.estimate().confounded().get(zero.zero().id());
    return confounded == null
        ? List.of()
        : confounded.separations().stream().flatMap(s -> s.lines().stream()).toList();
  }

  /** The shifts of the cords shown in full. */
  public List<CordShift> cordShifts() {
    return first(judgement.estimate().cords(), MOST_KIT);
  }

  /**
   * What the fibres in reach of a shifted zero would be with the shift taken out; empty if the zero
   * has no such doubt.
   */
  public Optional<String> proposal(ZeroTrust zero) {
    return Proposals.of(judgement).stream()
        .filter(p -> p.reference().equals(zero.zero().id()))
        .findFirst()
        .map(RecordPage::inWords);
  }

  private static String inWords(Proposal proposal) {
    List<String> parts = new ArrayList<>();
    proposal
        .totals()
        .forEach(
            (standing, count) -> {
              if (count > 0) {
                parts.add(Show.number(count) + " " + standing.word());
              }
            });
    return "if the shift of "
        + Show.db(proposal.shiftDb())
        + " dB (standard deviation "
        + Show.db(proposal.shiftSdDb())
        + " dB) were taken out of the readings in reach, with its uncertainty added to theirs, and"
        + " the doubt were settled, of "
        + Show.count(proposal.fibres().size(), "fibre")
        + " there would be "
        + String.join(", ", parts)
        + ". Only a verification of this zero that stands, or a retest under a new one, settles it.";
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
