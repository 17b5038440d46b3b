package ferrule.core.isolation;

import ferrule.core.uncertainty.Significance;

/**
 * Whether sums of end losses explain the readings, given how well a mating repeats.
 *
 * @param chiSquare {@code sum (residual / sd)^2}, with the stated or assumed standard deviations
 * @param degrees readings beyond what was needed, at least 1
 */
public record Fit(double chiSquare, int degrees) {

  /** How often readings that are sums of end losses may be called otherwise. */
  public static final double ALPHA = 0.05;

  /** What {@code chiSquare} exceeds by chance once in twenty. */
  public double critical() {
    return Significance.chiSquaredCritical(ALPHA, degrees);
  }

  /** How often so much or more is left over by chance. */
  public double probability() {
    return Significance.chiSquaredAbove(chiSquare, degrees);
  }

  /** Whether the readings are no farther from sums than mating explains. */
  public boolean holds() {
    return chiSquare <= critical();
  }
}
