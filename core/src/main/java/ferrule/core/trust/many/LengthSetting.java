package ferrule.core.trust.many;

import ferrule.core.uncertainty.Conformity;

/**
 * Whether measured lengths follow the schedule by honest take-up, or by one ratio or one constant
 * that a wrong setting explains.
 *
 * @param kind what was found
 * @param line how measured follow scheduled lengths; also where nothing was found
 * @param toldApart whether the lengths differ enough to tell a ratio from a constant
 * @param scale the line through the origin
 * @param offset the line beside an honest take-up
 */
record LengthSetting(
    Kind kind, LengthLine line, boolean toldApart, LengthLine scale, LengthLine offset) {

  /** What lies off. */
  enum Kind {
    NONE,
    SCALE,
    OFFSET,
    BOTH
  }

  private static final int LEAST_FIBRES = 8;
  private static final int LEAST_LINKS = 3;
  private static final int LEAST_POINTS_FOR_BOTH = 5;
  private static final double LEAST_OFFSET_M = 1.2;
  private static final double LONGEST_CORDS_M = 25;
  private static final double FOOT_M = 0.3048;

  /** Chance that it rings on a perfect job. */
  static final double CHANCE = 0.005;

  /** Twice the log-likelihood ratio that rings: chance 1 in 200 a job, two questions. */
  private static final double RINGS = Math.pow(Conformity.alarmLevel(2, CHANCE, true), 2);

  /** The same for a ratio and a constant at once: five deviations. */
  private static final double RINGS_FOR_BOTH = 25;

  /** Twice the log-likelihood ratio from which a ratio and a constant are told apart: 20 to 1. */
  private static final double TOLD = 2 * Math.log(20);

  /**
   * Judges the lengths of some fibres.
   *
   * @param regression through them
   * @param fibres how many fibres have a measured length
   */
  static LengthSetting of(LengthRegression regression, long fibres) {
    LengthRegression.Fitted scale = regression.scale();
    LengthRegression.Fitted offset = regression.offsetBesideTakeUp();
    boolean scaleFirst = scale.misfit() < offset.misfit();
    boolean told = Math.abs(scale.misfit() - offset.misfit()) >= TOLD;
    LengthLine centre = scaleFirst && told ? scale.line() : offset.line();
    LengthSetting none = new LengthSetting(Kind.NONE, centre, told, scale.line(), offset.line());
    if (fibres < LEAST_FIBRES || regression.links() < LEAST_LINKS) {
      return none;
    }
    double honest = regression.honest().misfit();
    double better = Math.min(scale.misfit(), offset.misfit());
    double rings = RINGS * (1 + 6.0 / Math.max(6, regression.points()));
    LengthRegression.Fitted full = regression.full();
    if (regression.points() >= LEAST_POINTS_FOR_BOTH
        && better - full.misfit() > RINGS_FOR_BOTH
        && honest - full.misfit() > RINGS_FOR_BOTH
        && isOffset(full.line().offsetM() / full.line().scale(), regression)
        && isScale(full.line())
        && (isFar(full.line(), regression.shortestM()) || isFar(full.line(), regression.longestM()))
        && regression.fits(full.line())) {
      return new LengthSetting(Kind.BOTH, full.line(), true, scale.line(), offset.line());
    }
    if (honest - better <= rings) {
      return none;
    }
    boolean likelierScale =
        Math.abs(scale.misfit() - offset.misfit()) >= 1
            ? scaleFirst
            : isFeet(scale.line().scale()) || !isCords(offset.line().offsetM());
    boolean offsetCounts = isOffset(offset.line().offsetM(), regression);
    if (isScale(scale.line())
        && (likelierScale || !offsetCounts && !told)
        && regression.fits(scale.line())) {
      return new LengthSetting(Kind.SCALE, scale.line(), told, scale.line(), offset.line());
    }
    if (!likelierScale && offsetCounts && regression.fits(offset.line())) {
      return new LengthSetting(Kind.OFFSET, offset.line(), told, scale.line(), offset.line());
    }
    return none;
  }

  /** Whether a line leaves what take-up and a small constant explain. */
  private static boolean isFar(LengthLine line, double scheduledM) {
    return Math.abs(line.of(scheduledM) - scheduledM)
        > LEAST_OFFSET_M + (LengthRegression.MOST_TAKE_UP - 1) * scheduledM;
  }

  private static boolean isScale(LengthLine line) {
    return line.usable()
        && (line.scale() < LengthRegression.LEAST_TAKE_UP
            || line.scale() > LengthRegression.MOST_TAKE_UP);
  }

  /**
   * A schedule that rounds up makes all fibres look short by half its step, and is no wrong cord.
   */
  private static boolean isOffset(double offsetM, LengthRegression regression) {
    return offsetM >= LEAST_OFFSET_M
        || -offsetM >= Math.max(LEAST_OFFSET_M, 0.6 * regression.stepM());
  }

  /** Whether a ratio is that of feet taken for metres, or of metres for feet. */
  static boolean isFeet(double ratio) {
    return Math.abs(ratio * FOOT_M - 1) < 0.03 || Math.abs(ratio / FOOT_M - 1) < 0.03;
  }

  private static boolean isCords(double offsetM) {
    return offsetM >= LEAST_OFFSET_M && offsetM <= LONGEST_CORDS_M;
  }

  boolean found() {
    return kind != Kind.NONE;
  }
}
