package ferrule.core.trust.joint;

import ferrule.core.trust.AssessedReading;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What is left of the readings of one fibre once expected loss, zeros, glass, connections, panels
 * and the troubles found are taken out, and how honest readings of such a fibre scatter together.
 */
public final class FibreExcess {

  /** Neighbours looked at on either side in the schedule. */
  private static final int EITHER_SIDE = 4;

  private final JointFit fit;
  private final int fibre;

  private FibreExcess(JointFit fit, int fibre) {
    this.fit = fit;
    this.fibre = fibre;
  }

  static Optional<FibreExcess> of(JointFit fit, int slot) {
    int at = Arrays.binarySearch(fit.frame.slot, slot);
    return at < 0 ? Optional.empty() : Optional.of(new FibreExcess(fit, at));
  }

  /** Readings it speaks of, one for each direction and wavelength. */
  public List<AssessedReading> readings() {
    Frame frame = fit.frame;
    return Arrays.asList(frame.reading).subList(frame.start[fibre], frame.start[fibre + 1]);
  }

  /** What is left of each reading, dB, in the order of {@link #readings}. */
  public double[] db() {
    Frame frame = fit.frame;
    return Arrays.copyOfRange(fit.residual, frame.start[fibre], frame.start[fibre + 1]);
  }

  /** Covariance of honest readings of a fibre like this at scale 1, dB². */
  public double[][] covarianceAtScaleOne() {
    return fit.scatter.covariance(fibre);
  }

  /** How much more or less this fibre scatters than its like, by the parts it is made of. */
  public double scale() {
    return fit.frame.scale[fibre];
  }

  /** Robust spread of the own part of fibres like this at scale 1, dB. */
  public double partSdDb() {
    return fit.scatter.partSdDb(fit.frame.families.get(fit.frame.family[fibre]));
  }

  /** Equal for fibres whose {@link #covarianceAtScaleOne} and order of cases are the same. */
  public long sameScatter() {
    Frame frame = fit.frame;
    boolean linked = frame.together[fibre] > 1;
    return ((long) frame.family[fibre] << 33) | ((linked ? 1L : 0) << 32) | frame.mask[fibre];
  }

  /** Mean of what is left over all readings, dB. */
  public double meanDb() {
    return mean(fibre);
  }

  /**
   * Means of what is left of the nearest fibres in the schedule that end at a place of this one and
   * are of its category: up to four on either side, dB.
   */
  public double[] neighboursDb() {
    double[] found = new double[2 * EITHER_SIDE];
    int count = 0;
    for (int step = -1; step <= 1; step += 2) {
      int held = 0;
      for (int i = fibre + step; i >= 0 && i < fit.frame.fibres() && near(i); i += step) {
        found[count++] = mean(i);
        if (++held == EITHER_SIDE) {
          break;
        }
      }
    }
    return Arrays.copyOf(found, count);
  }

  private boolean near(int other) {
    Frame frame = fit.frame;
    String a = frame.linkOf(fibre).a().place();
    String b = frame.linkOf(fibre).b().place();
    return frame.family[other] == frame.family[fibre]
        && ((!a.isEmpty() && a.equals(frame.linkOf(other).a().place()))
            || (!b.isEmpty() && b.equals(frame.linkOf(other).b().place())));
  }

  private double mean(int i) {
    double sum = 0;
    for (int r = fit.frame.start[i]; r < fit.frame.start[i + 1]; r++) {
      sum += fit.residual[r];
    }
    return sum / (fit.frame.start[i + 1] - fit.frame.start[i]);
  }
}
