package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/** Jobs in which fibres ail as often as the judge assumes, and what the judge says is the cause. */
final class CauseTrial {

  /** Doubts of one fibre that name causes of its loss. */
  private static final Set<DoubtKind> OF_LOSS =
      Set.of(DoubtKind.OUTLIER, DoubtKind.WAVELENGTH_ORDER, DoubtKind.DIRECTION_GAP);

  /**
   * One fibre whose cause the judge was asked.
   *
   * @param truth what it really is
   * @param posterior how probable the judge holds each cause
   * @param told what its doubt says; empty for a rejected fibre without such a doubt
   * @param evidence what that doubt rests on
   */
  record Call(
      long seed,
      FibreId fibre,
      FibreKind kind,
      int readings,
      Ailment truth,
      List<Cause> posterior,
      Optional<List<Cause>> told,
      String evidence) {

    /** How sure of its first cause. */
    double sure() {
      return posterior.get(0).weight();
    }

    boolean right() {
      return truth.isMeantBy(posterior.get(0).cause());
    }
  }

  private CauseTrial() {}

  /** So many jobs, in parallel. */
  static List<Call> run(int jobs, long seed) {
    return IntStream.range(0, jobs)
        .parallel()
        .mapToObj(i -> one(seed * 1_000_003 + i))
        .flatMap(List::stream)
        .toList();
  }

  /** One job: every fibre that failed, or of whose loss there is a doubt. */
  static List<Call> one(long seed) {
    Dice dice = new Dice(seed);
    Campaign campaign = new Campaign(dice.split());
    Map<FibreId, Ailment> ill = Infirmary.fill(campaign, dice.split());
    Judgement judgement = Judge.judge(campaign.job());
    Set<FibreId> asked = new LinkedHashSet<>();
    for (Doubt doubt : judgement.doubts()) {
      if (OF_LOSS.contains(doubt.kind())) {
        asked.addAll(doubt.reach().fibres());
      }
    }
    judgement.fibres().stream()
        .filter(f -> f.standing() == Standing.FAILED)
        .forEach(f -> asked.add(f.fibre()));
    List<Call> calls = new ArrayList<>();
    for (FibreId fibre : asked) {
      List<Cause> posterior = judgement.causesOf(fibre);
      if (!posterior.isEmpty()) {
        List<RawReading> own = FibreTroubles.of(campaign, fibre);
        calls.add(
            new Call(
                seed,
                fibre,
                own.get(0).link.kind(),
                own.size(),
                ill.getOrDefault(fibre, Ailment.NOTHING),
                posterior,
                doubt(judgement, fibre).map(Doubt::causes),
                doubt(judgement, fibre).map(CauseTrial::evidence).orElse("")));
      }
    }
    return calls;
  }

  private static Optional<Doubt> doubt(Judgement judgement, FibreId fibre) {
    return judgement.doubts().stream()
        .filter(d -> OF_LOSS.contains(d.kind()) && d.reach().fibres().contains(fibre))
        .findFirst();
  }

  private static String evidence(Doubt doubt) {
    return doubt.kind().id()
        + " "
        + String.join(
            ", ", doubt.evidence().stream().map(e -> e.name() + " " + e.shown()).toList());
  }
}
