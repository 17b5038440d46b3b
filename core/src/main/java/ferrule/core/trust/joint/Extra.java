package ferrule.core.trust.joint;

import ferrule.core.trust.joint.Frame.Level;

/**
 * A reading that is not in the estimate: one that somebody could take, or one that a later reading
 * replaced.
 *
 * @param fibre which, by its number in the frame
 * @param twin a reading of that fibre in the frame at the same wavelength, of the same direction if
 *     there is one
 * @param forward whether the source stands at end A
 * @param level the level it is compared with; -1 for one of a new zero
 * @param seconds when, since the first reading of all; infinite for one still to come
 */
record Extra(int fibre, int twin, boolean forward, int level, double seconds) {

  /** Zero it is read under, or -1 for a new one. */
  int zero(Frame frame) {
    return level < 0 ? -1 : frame.levels.get(level).zero();
  }

  int nm(Frame frame) {
    return frame.reading[twin].nm();
  }

  /** What an effect adds to it, for each dB of its size. */
  double of(Effect effect, Frame frame) {
    if (effect instanceof Effect.Shift shift) {
      return under(frame, shift.zero(), shift.part()) ? 1 : 0;
    }
    if (effect instanceof Effect.Step step) {
      return under(frame, step.zero(), step.part()) && seconds >= step.fromSeconds() ? 1 : 0;
    }
    if (effect instanceof Effect.Drift drift) {
      double share =
          (seconds - drift.fromSeconds()) / Math.max(1, drift.toSeconds() - drift.fromSeconds());
      return under(frame, drift.zero(), drift.part())
          ? drift.course().at(Math.max(0, Math.min(1, share)))
          : 0;
    }
    if (effect instanceof Effect.Bias) {
      return forward ? 0.5 : -0.5;
    }
    // What is left hangs on the fibre and the wavelength alone: as in its twin.
    return effect.at(frame, fibre, twin);
  }

  private boolean under(Frame frame, int zero, Part part) {
    return zero(frame) == zero && part.holds(forward, nm(frame));
  }

  /** Its case in the family of its fibre, the family's own if it has one. */
  Family.Case caseIn(Frame frame) {
    Family family = frame.families.get(frame.family[fibre]);
    Family.Case of = family.cases().get(frame.caseOf[twin]);
    return of.forward() == forward
        ? of
        : new Family.Case(forward, of.nm(), of.wavelengthAt(), of.pattern());
  }

  /** Covariance that the levels of one new zero share, dB². */
  static double freshCovariance(Frame frame, Extra one, Extra two) {
    Level of = frame.levels.get(frame.levelOf[one.twin]);
    int pairs = frame.zeros.get(of.zero()).method().cordPairs();
    boolean sameDirection = one.forward == two.forward;
    boolean sameWavelength = one.nm(frame) == two.nm(frame);
    return JointFit.priorCovariance(sameDirection, sameWavelength, pairs);
  }
}
