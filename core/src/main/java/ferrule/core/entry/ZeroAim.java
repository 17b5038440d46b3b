package ferrule.core.entry;

import ferrule.core.job.Job;
import ferrule.core.optics.Decibels;
import ferrule.core.optics.LevelDbm;
import ferrule.core.trust.paper.ZeroPowerFinder;
import ferrule.core.uncertainty.OrderStats;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.ZeroLevel;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What power to expect when a zero is set: the window of a healthy source and cord, and what this
 * source has stored before. The bounds are those of the doubt {@code zero-power}, so that a zero
 * that passes here raises none.
 *
 * @param window in which a healthy source and cord lie
 * @param usualDbm median of this source's earlier zeros at this wavelength and direction, dBm, if
 *     there are enough
 * @param others how many earlier zeros there are
 * @param beforeDbm power of the zero before with the same launch cord, dBm, if there is one
 */
public record ZeroAim(
    PowerWindow window, OptionalDouble usualDbm, int others, OptionalDouble beforeDbm) {

  /**
   * What to expect.
   *
   * @param job with the zeros set before
   * @param window for this kind of fibre
   * @param like a level as it is about to be set; its power is not looked at
   */
  public static ZeroAim of(Job job, PowerWindow window, ZeroLevel like) {
    List<ZeroLevel> before =
        job.zeros().stream()
            .flatMap(zero -> zero.levels().stream())
            .filter(level -> !like.source().isEmpty() && level.source().equals(like.source()))
            .filter(level -> level.wavelength().equals(like.wavelength()))
            .filter(level -> level.direction() == like.direction())
            .filter(level -> window.holds(level.power()))
            .sorted(Comparator.comparing(ZeroLevel::setAt))
            .toList();
    double[] powers = before.stream().mapToDouble(l -> l.power().value()).toArray();
    return new ZeroAim(
        window,
        powers.length >= ZeroPowerFinder.ENOUGH_OTHERS
            ? OptionalDouble.of(OrderStats.median(powers))
            : OptionalDouble.empty(),
        powers.length,
        before.stream()
            .filter(l -> !like.launchCord().isEmpty() && l.launchCord().equals(like.launchCord()))
            .mapToDouble(l -> l.power().value())
            .reduce((first, second) -> second));
  }

  /** What to expect, in a sentence. */
  public String inWords() {
    String expected = "Expected " + window.shown() + " (" + window.origin() + ")";
    if (usualDbm.isPresent()) {
      return expected
          + "; this source stored "
          + Decibels.shown(usualDbm.getAsDouble())
          + " dBm before, the median of "
          + others
          + " zeros.";
    }
    return beforeDbm.isPresent()
        ? expected
            + "; "
            + Decibels.shown(beforeDbm.getAsDouble())
            + " dBm last time with this launch cord."
        : expected + ".";
  }

  /** What to ask about a power that is not as expected; empty if it is. */
  public Optional<String> question(double powerDbm) {
    if (!window.holds(new LevelDbm(powerDbm))) {
      boolean low = powerDbm < window.lowest().value();
      return Optional.of(
          Decibels.shown(powerDbm)
              + " dBm is outside "
              + window.shown()
              + (low
                  ? ": clean the source's port and the launch cord, look at the cord's core and"
                      + " whether the source sends steady light, let it warm up, and read again."
                  : ": look at the wavelength that the meter is set to and at the number, and read"
                      + " again."));
    }
    if (usualDbm.isPresent()) {
      return unlike(
          powerDbm,
          usualDbm.getAsDouble(),
          ZeroPowerFinder.FROM_MEDIAN_DB,
          "what this source stored before");
    }
    return beforeDbm.isPresent()
        ? unlike(
            powerDbm,
            beforeDbm.getAsDouble(),
            ZeroPowerFinder.FROM_PREVIOUS_DB,
            "the zero before with this launch cord")
        : Optional.empty();
  }

  private static Optional<String> unlike(
      double powerDbm, double usual, double most, String before) {
    double off = powerDbm - usual;
    if (Math.abs(off) <= most) {
      return Optional.empty();
    }
    return Optional.of(
        Decibels.shown(powerDbm)
            + " dBm is "
            + Decibels.shown(Math.abs(off))
            + " dB "
            + (off < 0 ? "below " : "above ")
            + before
            + ": let the source warm up, clean and inspect the launch cord, and read again.");
  }
}
