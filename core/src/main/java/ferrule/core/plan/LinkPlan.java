package ferrule.core.plan;

import ferrule.core.allowance.Allowance;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import java.util.List;

/**
 * What is planned for one link.
 *
 * @param link the link
 * @param planned at each wavelength at which it is to be read, the shortest first
 * @param advice the method advised
 */
public record LinkPlan(Link link, List<Planned> planned, Advice advice) {

  /** Copies the list. */
  public LinkPlan {
    planned = List.copyOf(planned);
  }

  /**
   * Limit and expected loss at one wavelength under the method required.
   *
   * @param wavelength of the reading
   * @param allowance limit and expected loss, each with its terms
   */
  public record Planned(Wavelength wavelength, Allowance allowance) {

    /**
     * How large a fault the limit hides: the limit less the expected loss, dB. A link that is
     * otherwise as expected passes with it. Negative if good work does not meet the limit, NaN if
     * one of the two is not known. Its standard deviation is that of the expected loss.
     */
    public double hidesDb() {
      return allowance.limitDb() - allowance.expectedDb();
    }

    /** Standard deviation of {@link #hidesDb()}, dB. */
    public double hidesSdDb() {
      return allowance.expectedSdDb();
    }
  }
}
