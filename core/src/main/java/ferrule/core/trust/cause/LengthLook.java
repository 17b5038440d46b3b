package ferrule.core.trust.cause;

import java.util.OptionalDouble;

/**
 * The measured length of a fibre beside its schedule. Fibre is up to one per cent longer than the
 * schedule, and schedules round to a metre or two (common practice, no source); one schedule in
 * fifty is taken to be off by anything.
 *
 * @param measuredM metres, brought to the job's own ratio of measured and scheduled; NaN if none
 * @param scheduledM metres
 */
record LengthLook(double measuredM, double scheduledM) {

  private static final double FIXED_M = 1;
  private static final double SHARE = 0.008;
  private static final double ASTRAY = 0.02;

  /** How far it lies beyond the schedule, metres. */
  OptionalDouble beyondScheduleM() {
    return Double.isNaN(measuredM)
        ? OptionalDouble.empty()
        : OptionalDouble.of(measuredM - scheduledM);
  }

  /**
   * Logarithm of the density of the measured length; 0 if none was measured.
   *
   * @param extraM more fibre than scheduled, metres
   * @param sdM further spread, metres
   */
  double logDensity(double extraM, double sdM) {
    return logDensityOf(scheduledM + extraM, sdM);
  }

  /** The same if the fibre is another one of this scheduled length. */
  double logDensityOf(double trueM, double sdM) {
    if (Double.isNaN(measuredM)) {
      return 0;
    }
    double own = FIXED_M + SHARE * trueM;
    double sd = Math.sqrt(own * own + sdM * sdM);
    double z = (measuredM - trueM) / sd;
    double near = Math.exp(-z * z / 2) / (sd * Math.sqrt(2 * Math.PI));
    double wide = trueM + 100;
    double far =
        wide / ((wide + Math.abs(measuredM - trueM)) * (wide + Math.abs(measuredM - trueM))) / 2;
    return Math.log((1 - ASTRAY) * near + ASTRAY * far);
  }
}
