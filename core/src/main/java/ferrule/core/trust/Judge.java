package ferrule.core.trust;

import ferrule.core.job.Job;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.trust.joint.JointDoubts;
import ferrule.core.trust.joint.JointEstimate;
import ferrule.core.trust.joint.OutlierFinder;
import ferrule.core.trust.many.ClockFinder;
import ferrule.core.trust.many.CordWornFinder;
import ferrule.core.trust.many.LengthsFinder;
import ferrule.core.trust.many.RepeatedValuesFinder;
import ferrule.core.trust.many.SplitterFinder;
import ferrule.core.trust.many.Timeline;
import ferrule.core.trust.many.TooQuickFinder;
import ferrule.core.trust.paper.ArrayPaperFinder;
import ferrule.core.trust.paper.CalibrationFinder;
import ferrule.core.trust.paper.CrewConflictFinder;
import ferrule.core.trust.paper.FaceFinder;
import ferrule.core.trust.paper.FeedFinder;
import ferrule.core.trust.paper.PaperConflictFinder;
import ferrule.core.trust.paper.PolarityFinder;
import ferrule.core.trust.paper.ScheduleFinder;
import ferrule.core.trust.paper.ZeroMismatchFinder;
import ferrule.core.trust.paper.ZeroPowerFinder;
import ferrule.core.trust.paper.ZeroTimeFinder;
import ferrule.core.trust.paper.ZeroVerificationFinder;
import ferrule.core.trust.single.BelowFloorFinder;
import ferrule.core.trust.single.DirectionGapFinder;
import ferrule.core.trust.single.WavelengthOrderFinder;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Judges a job: a pure function of its contents. The same contents give the same judgement, in the
 * same order.
 */
public final class Judge {

  /** What looks for doubts in papers and zeros, and in one fibre by itself. */
  public static List<DoubtFinder> ofPapers() {
    return List.of(
        new PaperConflictFinder(),
        new CrewConflictFinder(),
        new ZeroMismatchFinder(),
        new ZeroPowerFinder(),
        new ZeroVerificationFinder(),
        new ZeroTimeFinder(),
        new CalibrationFinder(),
        new ScheduleFinder(),
        new FaceFinder(),
        new ArrayPaperFinder(),
        new PolarityFinder(),
        new FeedFinder(),
        new SplitterFinder(),
        new BelowFloorFinder());
  }

  /** What looks for doubts in one fibre, and says what they come from. */
  private static List<DoubtFinder> finders(LossCauses causes) {
    return List.of(new WavelengthOrderFinder(causes), new DirectionGapFinder(causes));
  }

  /** What looks for doubts in times, values and lengths of many readings together. */
  private static List<DoubtFinder> finders(Timeline timeline) {
    return List.of(
        new RepeatedValuesFinder(timeline),
        new TooQuickFinder(timeline),
        new ClockFinder(timeline),
        new CordWornFinder(timeline),
        new LengthsFinder());
  }

  /** What the joint estimate shows. */
  private static List<DoubtFinder> finders(JointEstimate estimate, LossCauses causes) {
    return List.of(new JointDoubts(estimate), new OutlierFinder(estimate, causes));
  }

  private Judge() {}

  /** Judges a job. */
  public static Judgement judge(Job job) {
    Ledger ledger = Ledger.of(job);
    // What needs no estimate is looked for while the estimate is made.
    List<ForkJoinTask<Looked>> ofPapers = start(ledger, ofPapers());
    List<ForkJoinTask<Looked>> ofMany = start(ledger, finders(new Timeline(ledger)));
    JointEstimate estimate = JointEstimate.of(ledger);
    LossCauses causes = new LossCauses(ledger, estimate);
    List<ForkJoinTask<Looked>> ofFibres = start(ledger, finders(causes));
    List<ForkJoinTask<Looked>> ofEstimate = start(ledger, finders(estimate, causes));
    List<Looked> looked =
        Stream.of(ofPapers, ofFibres, ofMany, ofEstimate)
            .flatMap(List::stream)
            .map(ForkJoinTask::join)
            .toList();
    List<Doubt> doubts = looked.stream().flatMap(l -> l.doubts().stream()).toList();
    List<AlarmShare> alarms = looked.stream().flatMap(l -> l.alarms().stream()).toList();
    BitSet blocked = new BitSet(ledger.readings().size());
    @Nullable List<Doubt>[] bySlot = doubtsBySlot(ledger, doubts, blocked);
    List<FibreJudgement> fibres =
        IntStream.range(0, ledger.slots())
            .parallel()
            .mapToObj(slot -> fibre(ledger, slot, bySlot[slot], blocked))
            .toList();
    return new Judgement(
        ledger,
        fibres,
        ZeroTrusts.of(ledger, doubts),
        doubts,
        ActionRanking.rank(ledger, fibres, causes),
        estimate,
        causes,
        new Alarm(alarms));
  }

  private static FibreJudgement fibre(
      Ledger ledger, int slot, @Nullable List<Doubt> own, BitSet blocked) {
    List<Doubt> touching = own == null ? List.of() : own;
    boolean faceUnseen = false;
    for (Doubt doubt : touching) {
      faceUnseen |= doubt.kind() == DoubtKind.FACE_UNSEEN;
    }
    Standing standing = Standings.of(ledger, slot, blocked, faceUnseen);
    return new FibreJudgement(ledger, slot, standing, touching, blocked);
  }

  /** What a finder found, and how often it would find something on a perfect job. */
  private record Looked(List<Doubt> doubts, List<AlarmShare> alarms) {}

  /** Finders only look at the ledger, so they may look at the same time; their order stays. */
  private static List<ForkJoinTask<Looked>> start(Ledger ledger, List<DoubtFinder> finders) {
    return finders.stream()
        .map(finder -> ForkJoinPool.commonPool().submit(() -> look(ledger, finder)))
        .toList();
  }

  private static Looked look(Ledger ledger, DoubtFinder finder) {
    List<Doubt> found = new ArrayList<>();
    finder.find(ledger, found::add);
    return new Looked(found, finder.alarms(ledger));
  }

  @SuppressWarnings({"unchecked", "rawtypes"}) // an array of lists; filled with nothing else
  private static @Nullable List<Doubt>[] doubtsBySlot(
      Ledger ledger, List<Doubt> doubts, BitSet blocked) {
    @Nullable List<Doubt>[] bySlot = new List[ledger.slots()];
    for (Doubt doubt : doubts) {
      if (doubt.blocking()) {
        for (AssessedReading reading : doubt.reach().readings()) {
          blocked.set(reading.index());
        }
      }
      for (var fibre : doubt.reach().fibres()) {
        int slot = ledger.slotOf(fibre);
        if (slot >= 0) {
          List<Doubt> list = bySlot[slot];
          if (list == null) {
            list = new ArrayList<>(2);
            bySlot[slot] = list;
          }
          list.add(doubt);
        }
      }
    }
    return bySlot;
  }
}
