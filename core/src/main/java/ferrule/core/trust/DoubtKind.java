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
  /** All readings under a zero lie high or low by one amount. */
  ZERO_SHIFT("zero-shift", "Readings under this zero all lie off by the same amount"),
  /** The two directions differ by one amount over many fibres. */
  DIRECTION_BIAS("direction-bias", "The two directions differ by the same amount everywhere"),
  /** Readings that share a cord step at a moment. */
  LEVEL_STEP("level-step", "Readings under this zero step at a moment"),
  /** Readings drift with time since the zero. */
  LEVEL_DRIFT("level-drift", "Readings under this zero drift with time"),
  /** Matings or verification history say that a cord is near its end. */
  CORD_WORN("cord-worn", "The cord is near its end"),
  /** Used after its calibration was due. */
  CALIBRATION_LAPSED("calibration-lapsed", "An instrument was used after its calibration was due"),
  /** Less loss than the glass alone must have. */
  BELOW_FLOOR("below-floor", "Less loss than the glass alone must have"),
  /** The longer wavelength loses more. */
  WAVELENGTH_ORDER("wavelength-order", "The longer wavelength loses more"),
  /** A-B and B-A differ beyond the uncertainty of a difference. */
  DIRECTION_GAP("direction-gap", "The two directions differ"),
  /** Inside the limit, far above what was expected. */
  OUTLIER("outlier", "Far more loss than its like"),
  /** One panel lies high. */
  PANEL_HIGH("panel-high", "One panel lies high"),
  /** One position lies high everywhere. */
  POSITION_HIGH("position-high", "One position lies high everywhere"),
  /** All measured lengths are off by one ratio. */
  LENGTH_SCALE("length-scale", "All measured lengths are off by one ratio"),
  /** All measured lengths are off by one constant. */
  LENGTH_OFFSET("length-offset", "All measured lengths are off by one constant"),
  /** Two fibres fit better exchanged. */
  CROSSED("crossed", "Two fibres fit better exchanged"),
  /** A panel fits better moved by one. */
  PORT_SHIFT("port-shift", "A panel fits better moved by one port"),
  /** A set of readings cannot be told from a repeat of another's. */
  REPEATED_VALUES("repeated-values", "The readings cannot be told from a repeat of another's"),
  /** Times that the handling cannot have taken. */
  TOO_QUICK("too-quick", "Less time than the handling takes"),
  /** Overlapping or reversed times. */
  CLOCK("clock", "Times overlap or run backwards"),
  /** Measured length disagrees with the schedule. */
  LENGTH_GAP("length-gap", "The measured length disagrees with the schedule"),
  /** A scheduled fibre lacks readings. */
  MISSING("missing", "Readings are missing"),
  /** A reading names a fibre that is not in the schedule. */
  UNSCHEDULED("unscheduled", "Readings of a fibre that is not in the schedule"),
  /** One fibre, direction and wavelength read more than once. */
  DOUBLE("double", "Read more than once"),
  /** The latest picture of an end face is rejected. */
  FACE_REJECTED("face-rejected", "An end face is rejected"),
  /** An end face is required and not graded. */
  FACE_UNSEEN("face-unseen", "An end face is required and not graded"),
  /** A leg of a splitter loses one halving more or less than its like, or a whole splitter less. */
  SPLITTER_STEP("splitter-step", "One halving off"),
  /** All legs behind one point of a tree lie high. */
  SPLITTER_HIGH("splitter-high", "All legs of one splitter lie high"),
  /** Positions of an array link do not come out where its parts lead them. */
  POLARITY("polarity", "Positions do not come out where the parts lead them"),
  /** Two ends within an array link cannot be mated as they are written down. */
  ARRAY_MATING("array-mating", "Two ends do not fit each other"),
  /** The parts of an array link do not bring transmit to receive. */
  TRANSMIT_RECEIVE("transmit-receive", "Transmit does not meet receive"),
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
