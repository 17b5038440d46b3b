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
import ferrule.core.trust.many.Timeline;
import ferrule.core.trust.many.TooQuickFinder;
import ferrule.core.trust.paper.CalibrationFinder;
import ferrule.core.trust.paper.FaceFinder;
import ferrule.core.trust.paper.PaperConflictFinder;
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
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Judges a job: a pure function of its contents. The same contents give the same judgement, in the
 * same order.
 */
public final class Judge {

  /**
   * What looks for doubts, in the order in which doubts are listed: papers and zeros, the single
   * fibre, then what many readings show together.
   */
  private static List<DoubtFinder> finders(
      JointEstimate estimate, LossCauses causes, Timeline timeline) {
    return List.of(
        new PaperConflictFinder(),
        new ZeroMismatchFinder(),
        new ZeroPowerFinder(),
        new ZeroVerificationFinder(),
        new ZeroTimeFinder(),
        new CalibrationFinder(),
        new ScheduleFinder(),
        new FaceFinder(),
        new BelowFloorFinder(),
        new WavelengthOrderFinder(causes),
        new DirectionGapFinder(causes),
        new RepeatedValuesFinder(timeline),
        new TooQuickFinder(timeline),
        new ClockFinder(timeline),
        new CordWornFinder(timeline),
        new LengthsFinder(),
        new JointDoubts(estimate),
        new OutlierFinder(estimate, causes));
  }

  private Judge() {}

  /** Judges a job. */
  public static Judgement judge(Job job) {
    Ledger ledger = Ledger.of(job);
    JointEstimate estimate = JointEstimate.of(ledger);
    LossCauses causes = new LossCauses(ledger, estimate);
    List<DoubtFinder> finders = finders(estimate, causes, new Timeline(ledger));
    List<Doubt> doubts = doubts(ledger, finders);
    List<AlarmShare> alarms =
        finders.stream().flatMap(finder -> finder.alarms(ledger).stream()).toList();
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

  /** Finders only look at the ledger, so they may look at the same time; their order stays. */
  private static List<Doubt> doubts(Ledger ledger, List<DoubtFinder> finders) {
    return finders.parallelStream()
        .map(
            finder -> {
              List<Doubt> found = new ArrayList<>();
              finder.find(ledger, found::add);
              return found;
            })
        .flatMap(List::stream)
        .toList();
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
