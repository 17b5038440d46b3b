package ferrule.core.entry;

import ferrule.core.optics.Decibels;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What in a typed number looks like a slip of the hand, and so is asked about before it is stored.
 * Asking keeps nothing out: whoever says that the meter shows it has it stored. The bounds are
 * common practice, no source; they only decide when to ask.
 *
 * @param question what to ask, one or two sentences
 * @param instead what was probably meant, if that can be told
 */
public record Slip(String question, OptionalDouble instead) {

  /** A loss below this is asked about, dB: no cabling gives light. */
  public static final double LEAST_LOSS_DB = -1;

  /** A loss above this is asked about, dB: hardly any light arrives. */
  public static final double MOST_LOSS_DB = 35;

  /**
   * Looks at a typed number.
   *
   * @param kind what was typed
   * @param typed dBm or dB
   * @param zeroDbm the zero's level for this direction and wavelength, if there is one
   */
  public static Optional<Slip> of(TypedNumber.Kind kind, double typed, OptionalDouble zeroDbm) {
    if (kind == TypedNumber.Kind.LOSS) {
      return loss(typed);
    }
    if (zeroDbm.isEmpty()) {
      return Optional.empty();
    }
    double zero = zeroDbm.getAsDouble();
    double loss = zero - typed;
    if (isUsual(loss)) {
      return Optional.empty();
    }
    String levels =
        Decibels.shown(typed) + " dBm against the zero's " + Decibels.shown(zero) + " dBm";
    if (loss < LEAST_LOSS_DB) {
      boolean signLost = typed > 0 && isUsual(zero + typed);
      return Optional.of(
          new Slip(
              levels
                  + " would be more light than went in."
                  + (signLost ? " Was the minus sign left out?" : " Is this the zero in force?"),
              signLost ? OptionalDouble.of(-typed) : OptionalDouble.empty()));
    }
    return Optional.of(
        new Slip(
            levels
                + " is a loss of "
                + Decibels.shown(loss)
                + " dB: hardly any light arrives."
                + " Is it the right fibre, and is the source on?",
            OptionalDouble.empty()));
  }

  private static Optional<Slip> loss(double typed) {
    if (isUsual(typed)) {
      return Optional.empty();
    }
    boolean negative = typed < LEAST_LOSS_DB;
    boolean signTooMany = negative && isUsual(-typed);
    return Optional.of(
        new Slip(
            negative
                ? "A loss of "
                    + Decibels.shown(typed)
                    + " dB would be more light than went in. Does the meter show a level, or a loss"
                    + " with its sign turned?"
                : "A loss of "
                    + Decibels.shown(typed)
                    + " dB: hardly any light arrives. Is it the right fibre, and is the source on?",
            signTooMany ? OptionalDouble.of(-typed) : OptionalDouble.empty()));
  }

  private static boolean isUsual(double loss) {
    return loss >= LEAST_LOSS_DB && loss <= MOST_LOSS_DB;
  }
}
