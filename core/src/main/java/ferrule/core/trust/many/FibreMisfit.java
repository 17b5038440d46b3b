package ferrule.core.trust.many;

import java.util.BitSet;
import org.jspecify.annotations.Nullable;

/**
 * How far what was read of a fibre lies from what the schedule says of a link, in standard
 * deviations: by the measured length, or where there is none by the loss.
 *
 * <p>A length is taken back along its line first. Its deviation is {@link LengthScatter}, scaled up
 * to the job's own scatter by the distance within which two fifths of the fibres lie: two fifths,
 * so that it holds while up to three fifths of the fibres were read under wrong names.
 */
final class FibreMisfit {

  private static final double SHARE = 0.4;
  private static final double NORMAL_AT_SHARE = 0.5244;

  private final LengthProfile profile;
  private final LengthLine common;
  private final LengthLine other;
  private final BitSet ofOther;
  private final LengthScatter scatter;
  private @Nullable LossMisfit losses;

  /**
   * @param common line of most fibres
   * @param other line of the fibres in {@code ofOther}
   * @param truth for each link the link whose fibres were read under its name; -1 if unknown
   * @param stepM the step to which the schedule is rounded, metres
   */
  FibreMisfit(
      LengthProfile profile,
      LengthLine common,
      LengthLine other,
      BitSet ofOther,
      int[] truth,
      double stepM) {
    this.profile = profile;
    this.common = common;
    this.other = other;
    this.ofOther = ofOther;
    double[] scheduled = new double[profile.slots()];
    double[] gaps = new double[profile.slots()];
    int size = 0;
    for (int slot = 0; slot < gaps.length; slot++) {
      int link = truth[profile.linkOf(slot)];
      if (link >= 0 && profile.hasLength(slot)) {
        scheduled[size] = profile.scheduledM(link);
        gaps[size++] = lengthM(slot) - profile.scheduledM(link);
      }
    }
    this.scatter =
        LengthScatter.usual(stepM).scaledTo(scheduled, gaps, size, SHARE, NORMAL_AT_SHARE, 1);
  }

  /** The scheduled length that the measured one speaks of, metres; NaN without one. */
  double lengthM(int slot) {
    return line(slot).back(profile.measuredM(slot));
  }

  LengthLine line(int slot) {
    return ofOther.get(slot) ? other : common;
  }

  /** Standard deviation of the length of a fibre of a link, metres. */
  double sdM(double scheduledM) {
    return scatter.sdM(scheduledM);
  }

  /** The same for one measured length of a fibre, metres. */
  double ofLength(double measuredM, int slot, int link) {
    double scheduled = profile.scheduledM(link);
    return (line(slot).back(measuredM) - scheduled) / sdM(scheduled);
  }

  /** Standard deviations; NaN if it cannot be said. */
  double of(int slot, int link) {
    if (profile.hasLength(slot)) {
      return ofLength(profile.measuredM(slot), slot, link);
    }
    return losses().of(slot, link);
  }

  /** How the losses fit. */
  LossMisfit losses() {
    LossMisfit known = losses;
    if (known == null) {
      known = new LossMisfit(profile);
      losses = known;
    }
    return known;
  }
}
