package ferrule.core.trust;

import ferrule.core.job.Job;
import ferrule.core.trust.Subject.Type;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.trust.joint.JointDoubts;
import ferrule.core.trust.joint.JointEstimate;
import ferrule.core.trust.joint.OutlierFinder;
import ferrule.core.trust.many.ClockFinder;
import ferrule.core.trust.many.CordWornFinder;
import ferrule.core.trust.many.LengthsFinder;
import ferrule.core.trust.many.RepeatedValuesFinder;
import ferrule.core.trust.many.TooQuickFinder;
import ferrule.core.trust.paper.CalibrationFinder;
import ferrule.core.trust.paper.PaperConflictFinder;
import ferrule.core.trust.paper.ScheduleFinder;
import ferrule.core.trust.paper.ZeroMismatchFinder;
import ferrule.core.trust.paper.ZeroPowerFinder;
import ferrule.core.trust.paper.ZeroTimeFinder;
import ferrule.core.trust.paper.ZeroVerificationFinder;
import ferrule.core.trust.single.BelowFloorFinder;
import ferrule.core.trust.single.DirectionGapFinder;
import ferrule.core.trust.single.WavelengthOrderFinder;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
  private static List<DoubtFinder> finders(JointEstimate estimate, LossCauses causes) {
    return List.of(
        new PaperConflictFinder(),
        new ZeroMismatchFinder(),
        new ZeroPowerFinder(),
        new ZeroVerificationFinder(),
        new ZeroTimeFinder(),
        new CalibrationFinder(),
        new ScheduleFinder(),
        new BelowFloorFinder(),
        new WavelengthOrderFinder(causes),
        new DirectionGapFinder(causes),
        new RepeatedValuesFinder(),
        new TooQuickFinder(),
        new ClockFinder(),
        new CordWornFinder(),
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
    List<Doubt> doubts = doubts(ledger, finders(estimate, causes));
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
        zeroTrusts(ledger, doubts),
        doubts,
        ActionRanking.rank(ledger, fibres, causes),
        estimate,
        causes);
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

  private static List<ZeroTrust> zeroTrusts(Ledger ledger, List<Doubt> doubts) {
    Map<String, List<Doubt>> byZero = new HashMap<>();
    for (Doubt doubt : doubts) {
      if (doubt.subject().type() == Type.REFERENCE) {
        byZero.computeIfAbsent(doubt.subject().id(), k -> new ArrayList<>()).add(doubt);
      }
    }
    List<ZeroTrust> trusts = new ArrayList<>();
    for (Zero zero : ledger.job().zeros()) {
      int count = 0;
      Duration oldest = Duration.ZERO;
      for (ZeroLevel level : zero.levels()) {
        count += ledger.byLevel().of(level).size();
        Duration age = Duration.between(level.setAt(), ledger.byLevel().latest(level));
        oldest = age.compareTo(oldest) > 0 ? age : oldest;
      }
      trusts.add(trust(ledger, zero, byZero.getOrDefault(zero.id(), List.of()), count, oldest));
    }
    return trusts;
  }

  private static ZeroTrust trust(
      Ledger ledger, Zero zero, List<Doubt> own, int readings, Duration oldest) {
    List<String> reasons = new ArrayList<>();
    boolean odd = false;
    boolean broken = false;
    boolean lapsed = false;
    for (Doubt doubt : own) {
      reasons.add(doubt.line());
      switch (doubt.kind()) {
        case ZERO_UNVERIFIED -> odd = true;
        // The zero was good while it held; it is the readings that came at the wrong time.
        case ZERO_LAPSED -> lapsed = true;
        default -> {
          broken |= doubt.blocking();
          odd |= !doubt.blocking();
        }
      }
    }
    if (broken) {
      return new ZeroTrust(zero, Trust.BROKEN, reasons, readings);
    }
    if (odd) {
      return new ZeroTrust(zero, Trust.DOUBTFUL, reasons, readings);
    }
    if (lapsed) {
      return new ZeroTrust(zero, Trust.AGEING, reasons, readings);
    }
    reasons.add("Verified within its window in every direction and wavelength");
    if (readings == 0) {
      return new ZeroTrust(zero, Trust.FRESH, reasons, 0);
    }
    Duration every = ledger.requirement().settings().verifyEvery();
    if (oldest.compareTo(every) > 0) {
      reasons.add(
          "Readings go on for "
              + hours(oldest)
              + " h after it was set; verify at every break, "
              + hours(every)
              + " h at most");
      return new ZeroTrust(zero, Trust.AGEING, reasons, readings);
    }
    return new ZeroTrust(zero, Trust.VERIFIED, reasons, readings);
  }

  private static String hours(Duration duration) {
    long tenths = Math.round(duration.toMinutes() / 6.0);
    return tenths / 10 + (tenths % 10 == 0 ? "" : "." + tenths % 10);
  }
}
