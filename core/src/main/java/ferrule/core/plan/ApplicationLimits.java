package ferrule.core.plan;

import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import java.util.Optional;
import java.util.OptionalDouble;

/** What applications ask of a link. The plan compares with it and knows no application itself. */
@FunctionalInterface
public interface ApplicationLimits {

  /**
   * What an application asks of a link; empty if that is not known, or it does not run on such
   * fibre.
   *
   * @param application as the job's requirement names it: "10GBASE-LR"
   */
  Optional<Demand> of(String application, Link link);

  /** Knows none. */
  ApplicationLimits NONE = (application, link) -> Optional.empty();

  /**
   * A demand.
   *
   * @param wavelength at which it runs
   * @param mostLossDb most loss of the channel, dB, if limited
   * @param leastLossDb least loss below which a receiver is overloaded, dB, if stated
   * @param longestM greatest length, m, if limited
   * @param source where that comes from, one line
   */
  record Demand(
      Wavelength wavelength,
      OptionalDouble mostLossDb,
      OptionalDouble leastLossDb,
      OptionalDouble longestM,
      String source) {

    /** A demand that states no least loss. */
    public Demand(
        Wavelength wavelength, OptionalDouble mostLossDb, OptionalDouble longestM, String source) {
      this(wavelength, mostLossDb, OptionalDouble.empty(), longestM, source);
    }
  }
}
