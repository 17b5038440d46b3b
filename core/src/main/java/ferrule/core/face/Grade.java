package ferrule.core.face;

import java.util.List;

/**
 * The grade of one fibre's end face.
 *
 * @param faceClass class it was graded by
 * @param edition edition of the criteria: "2015"
 * @param outcome what it came to
 * @param close whether the size of any flaw lies within its own uncertainty of a limit
 * @param resolutionOk whether the picture can show the smallest flaw that must be seen
 * @param reasons why, the weightiest first; at least one
 * @param flaws every flaw seen, in the order found
 */
public record Grade(
    FaceClass faceClass,
    String edition,
    FaceOutcome outcome,
    boolean close,
    boolean resolutionOk,
    List<GradeReason> reasons,
    List<GradedFlaw> flaws)
    implements FaceGrade {

  /** Copies the lists. */
  public Grade {
    reasons = List.copyOf(reasons);
    flaws = List.copyOf(flaws);
  }
}
