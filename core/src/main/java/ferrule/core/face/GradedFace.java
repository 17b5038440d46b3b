package ferrule.core.face;

import java.util.List;

/**
 * A listed picture with the grade it was given when it was taken in. Grading needs the picture
 * itself and is done at the edge; the job keeps what it came to.
 *
 * @param listed the picture as listed
 * @param sha256 hash of the picture's bytes, 64 hexadecimal digits: which picture was graded
 * @param criteria id of the criteria it was graded against
 * @param faceClass class it was graded by
 * @param outcome what it came to
 * @param close whether a size lay within its own uncertainty of a limit
 * @param reasons why, the weightiest first; at least one
 */
public record GradedFace(
    FacePicture listed,
    String sha256,
    String criteria,
    FaceClass faceClass,
    FaceOutcome outcome,
    boolean close,
    List<String> reasons) {

  /**
   * Copies the list.
   *
   * @throws IllegalArgumentException if there is no reason
   */
  public GradedFace {
    if (reasons.isEmpty()) {
      throw new IllegalArgumentException("a grade without a reason");
    }
    reasons = List.copyOf(reasons);
  }

  /** The grade of one fibre, kept with its picture. */
  public static GradedFace of(FacePicture listed, String sha256, Criteria criteria, Grade grade) {
    return new GradedFace(
        listed,
        sha256,
        criteria.id(),
        grade.faceClass(),
        grade.outcome(),
        grade.close(),
        grade.reasonTexts());
  }

  /** The grade of a whole row, kept with its picture. */
  public static GradedFace of(
      FacePicture listed, String sha256, Criteria criteria, RowGrade grade) {
    return new GradedFace(
        listed,
        sha256,
        criteria.id(),
        grade.fibres().get(0).faceClass(),
        grade.outcome(),
        grade.close(),
        grade.reasonTexts());
  }
}
