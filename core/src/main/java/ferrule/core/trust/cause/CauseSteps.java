package ferrule.core.trust.cause;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.Handling;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Steps;
import java.util.Optional;

/** What a leading cause asks to be done first. */
final class CauseSteps {

  private CauseSteps() {}

  /** The step of a cause; empty where cleaning and a retest answer it, or nothing is wrong. */
  static Optional<NextStep> of(LossCause cause, FibreId fibre, Link link) {
    return switch (cause) {
      case ORDINARY, OFFSET, TILT, ONE_READING, UNLIKE -> Optional.empty();
      case FILM, CORD_DIRT, GAP -> Optional.of(Steps.cleanAndRetest(fibre, link));
      case BEND -> Optional.of(Steps.relax(fibre, link));
      case LONGER, OTHER_FIBRE -> Optional.of(Steps.identify(fibre, link));
      case CORES ->
          Optional.of(
              new NextStep(
                  "print:" + fibre,
                  "Read the print on the sheath of every cable, pigtail and cord in the line of "
                      + fibre
                      + ": a larger core into a smaller one loses 2 to 4 dB",
                  link.a().where(),
                  Handling.LOOK_UP,
                  "Two core sizes meet in the line: change the odd piece and retest",
                  "All carry one core size: clean both ends and retest"));
      case POLISH ->
          Optional.of(
              new NextStep(
                  "plugs:" + fibre,
                  "Look at the plugs and adapters of "
                      + fibre
                      + " before anything is mated again: angled (green) against straight damages"
                      + " both; look for an attenuator left in",
                  link.a().where(),
                  Handling.LOOK_UP,
                  "Green meets another colour, or an attenuator sits in the line",
                  "All plugs and adapters match: clean both ends and retest"));
      case EXCHANGED ->
          Optional.of(
              new NextStep(
                  "exchanged:" + fibre,
                  "Compare the values of " + fibre + " with those in the instrument's memory",
                  "",
                  Handling.LOOK_UP,
                  "The memory holds them the other way round: enter them anew with the reason",
                  "The memory agrees: retest the fibre and watch it while it is relaxed"));
    };
  }
}
