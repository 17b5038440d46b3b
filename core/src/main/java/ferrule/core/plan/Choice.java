package ferrule.core.plan;

import ferrule.core.job.Requirement;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import java.util.List;

/**
 * What an owner may ask of each link, and pays for.
 *
 * @param directions one or both
 * @param inspection whether every face is inspected before it is mated
 * @param pictures whether a picture of every link face is kept; only with inspection
 */
public record Choice(Directions directions, boolean inspection, boolean pictures) {

  /**
   * @throws IllegalArgumentException for pictures without inspection
   */
  public Choice {
    if (pictures && !inspection) {
      throw new IllegalArgumentException("pictures without inspection");
    }
  }

  /** All there are, least work first. */
  public static final List<Choice> ALL =
      List.of(
          new Choice(Directions.ONE, false, false),
          new Choice(Directions.BOTH, false, false),
          new Choice(Directions.ONE, true, false),
          new Choice(Directions.ONE, true, true),
          new Choice(Directions.BOTH, true, false),
          new Choice(Directions.BOTH, true, true));

  /**
   * What a job asks for. Faces are inspected before every mating whatever is asked (common
   * practice, no source); pictures are kept where every end must be graded.
   */
  public static Choice required(Requirement requirement) {
    return new Choice(requirement.directions(), true, requirement.faces() == FaceDemand.ENDS);
  }

  /** How many directions. */
  public int passes() {
    return directions == Directions.BOTH ? 2 : 1;
  }

  /** "both directions, faces inspected, pictures kept". */
  public String shown() {
    return (passes() == 2 ? "both directions" : "one direction")
        + (inspection ? ", faces inspected" : ", no inspection")
        + (pictures ? ", pictures kept" : "");
  }
}
