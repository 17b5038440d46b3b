package ferrule.core.trust;

/** Kinds of doubt. The ids are a contract with other people's scripts: add, never rename. */
public enum DoubtKind {
  /** Stored power outside the source's window, or unlike its own history. */
  ZERO_POWER("zero-power", "The stored power is unlike what this source gives"),
  /** No verification, or exactly 0.00 at every wavelength. */
  ZERO_UNVERIFIED("zero-unverified", "The zero was not verified"),
  /** Verification negative or above what reference-grade ends allow. */
  ZERO_VERIFICATION("zero-verification", "The verification of the zero is out of its window"),
  /** Method, fibre, connector or cord grade of the zero disagrees with requirement or link. */
  ZERO_MISMATCH("zero-mismatch", "The zero does not fit what was to be tested"),
  /** Readings before it was set, after it lapsed, or with no zero for their case. */
  ZERO_LAPSED("zero-lapsed", "Readings were taken while this zero did not hold"),
  /** Used after its calibration was due. */
  CALIBRATION_LAPSED("calibration-lapsed", "An instrument was used after its calibration was due"),
  /** Less loss than the glass alone must have. */
  BELOW_FLOOR("below-floor", "Less loss than the glass alone must have"),
  /** The longer wavelength loses more. */
  WAVELENGTH_ORDER("wavelength-order", "The longer wavelength loses more"),
  /** A-B and B-A differ beyond the uncertainty of a difference. */
  DIRECTION_GAP("direction-gap", "The two directions differ"),
  /** Measured length disagrees with the schedule. */
  LENGTH_GAP("length-gap", "The measured length disagrees with the schedule"),
  /** A scheduled fibre lacks readings. */
  MISSING("missing", "Readings are missing"),
  /** A reading names a fibre that is not in the schedule. */
  UNSCHEDULED("unscheduled", "Readings of a fibre that is not in the schedule"),
  /** One fibre, direction and wavelength read more than once. */
  DOUBLE("double", "Read more than once"),
  /** An end face is required and not graded. */
  FACE_UNSEEN("face-unseen", "An end face is required and not graded"),
  /** The requirement contradicts itself, its rulebook or the schedule. */
  PAPER_CONFLICT("paper-conflict", "The papers contradict each other");

  private final String id;
  private final String headline;

  DoubtKind(String id, String headline) {
    this.id = id;
    this.headline = headline;
  }

  /** The id in JSON: "zero-power". */
  public String id() {
    return id;
  }

  /** What it says, in one short line. */
  public String headline() {
    return headline;
  }
}
