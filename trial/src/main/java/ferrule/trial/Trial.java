package ferrule.trial;

import ferrule.core.job.Job;
import ferrule.core.trust.Judge;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/** Runs simulated jobs past the judge. The same seed gives the same outcomes. */
final class Trial {

  /** The id under which clean jobs run. */
  static final String CLEAN = "clean";

  private static final int MOST_DRAWS = 2000;

  private Trial() {}

  /**
   * So many jobs of one kind, in parallel.
   *
   * @param kind id of a trouble, or {@link #CLEAN}
   * @param size without sign; empty to have sizes drawn
   */
  static List<Outcome> run(String kind, int jobs, long seed, OptionalDouble size) {
    return IntStream.range(0, jobs)
        .parallel()
        .mapToObj(i -> first(kind, mix(mix(seed ^ kind.hashCode()) + i), size))
        .toList();
  }

  /** The first job from this seed on that has a place for the trouble. */
  private static Outcome first(String kind, long seed, OptionalDouble size) {
    for (int draw = 0; draw < MOST_DRAWS; draw++) {
      Optional<Outcome> outcome = one(kind, mix(seed + draw), size);
      if (outcome.isPresent()) {
        return outcome.get();
      }
    }
    throw new IllegalStateException("No plan has a place for " + kind);
  }

  /** The job of exactly this seed; empty if its plan has no place for the trouble. */
  static Optional<Outcome> one(String kind, long seed, OptionalDouble size) {
    Dice dice = new Dice(seed);
    Campaign campaign;
    try {
      campaign = new Campaign(dice.split());
    } catch (Campaign.CordsBeyondUse e) {
      return Optional.empty();
    }
    Optional<Planted> planted = Optional.empty();
    double drawn = Double.NaN;
    if (!kind.equals(CLEAN)) {
      Dice own = dice.split();
      Trouble trouble =
          Troubles.draw(kind, own, size)
              .orElseThrow(() -> new IllegalArgumentException("No trouble is called " + kind));
      planted = trouble.plant(campaign, own);
      drawn = trouble.size();
      if (planted.isEmpty()) {
        return Optional.empty();
      }
    }
    Job job = campaign.job();
    return Optional.of(
        Outcome.of(
            seed,
            planted,
            drawn,
            planted.flatMap(Planted::plainScore).map(s -> s.getAsDouble()).orElse(Double.NaN),
            Judge.judge(job),
            campaign.inWords(),
            job.fibreCount()));
  }

  /** Spreads seeds (the finaliser of SplitMix64, public domain). */
  private static long mix(long seed) {
    long z = seed + 0x9E3779B97F4A7C15L;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }
}
