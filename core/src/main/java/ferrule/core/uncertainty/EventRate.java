package ferrule.core.uncertainty;

import org.apache.commons.statistics.distribution.GammaDistribution;

/**
 * How often a rare event comes, told from events counted: events are taken to come independently
 * with one rate (Poisson), and the rate has a gamma law before and after counting (its conjugate
 * law; any text on Bayesian statistics).
 *
 * @param shape of the gamma law: events of the prior and those counted, above 0
 * @param exposure inverse scale of the gamma law: trials of the prior and those counted, above 0
 */
public record EventRate(double shape, double exposure) {

  /**
   * @throws IllegalArgumentException unless both are above 0 and finite
   */
  public EventRate {
    if (!(shape > 0 && exposure > 0 && Double.isFinite(shape) && Double.isFinite(exposure))) {
      throw new IllegalArgumentException("An event rate needs events and trials above 0");
    }
  }

  /** The rate after counting: {@code Gamma(shape + events, exposure + trials)}. */
  public EventRate after(long events, long trials) {
    return new EventRate(shape + events, exposure + trials);
  }

  /** Mean of the rate, events a trial. */
  public double mean() {
    return shape / exposure;
  }

  /**
   * The rate that the true one lies below with the given probability.
   *
   * @param probability above 0 and below 1
   */
  public double quantile(double probability) {
    return GammaDistribution.of(shape, 1 / exposure).inverseCumulativeProbability(probability);
  }
}
