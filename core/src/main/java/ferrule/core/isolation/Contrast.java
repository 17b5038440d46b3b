package ferrule.core.isolation;

import ferrule.core.uncertainty.Significance;
import java.util.List;

/**
 * How much an end loses more than the mean of its fellows: those ends whose differences from it can
 * be told.
 *
 * @param fellows at least one, in the order of their names
 * @param difference end less mean of fellows
 * @param degrees degrees of freedom of its standard deviation
 */
public record Contrast(List<EndId> fellows, Estimate difference, double degrees) {

  /** Copies the list. */
  public Contrast {
    fellows = List.copyOf(fellows);
  }

  /** Difference over its standard deviation. */
  public double t() {
    return difference.db() / difference.sdDb();
  }

  /** How often ends that are alike differ so much by chance, on either side. */
  public double probability() {
    return Significance.studentTwoSided(t(), degrees);
  }

  /**
   * Whether the end stands out above its fellows. Each of them is looked at: all looks together may
   * ring by chance once in twenty.
   */
  public boolean standsOut() {
    return t() > 0 && probability() < Significance.eachOf(fellows.size() + 1L, Fit.ALPHA);
  }

  /** Probability that the difference is over a limit, dB. */
  public double over(double limit) {
    return Significance.studentBelow((difference.db() - limit) / difference.sdDb(), degrees);
  }
}
