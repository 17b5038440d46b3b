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
 * @param fibres of a row what each fibre came to, from left to right; empty for a single fibre and
 *     where no row was told apart
 */
public record GradedFace(
    FacePicture listed,
    String sha256,
    String criteria,
    FaceClass faceClass,
    FaceOutcome outcome,
    boolean close,
    List<String> reasons,
    List<FibreOutcome> fibres) {

  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException if there is no reason
   */
  public GradedFace {
    if (reasons.isEmpty()) {
      throw new IllegalArgumentException("a grade without a reason");
    }
    reasons = List.copyOf(reasons);
    fibres = List.copyOf(fibres);
  }

  /** The grade of one fibre, or of a picture in which no row was told apart. */
  public GradedFace(
      FacePicture listed,
      String sha256,
      String criteria,
      FaceClass faceClass,
      FaceOutcome outcome,
      boolean close,
      List<String> reasons) {
    this(listed, sha256, criteria, faceClass, outcome, close, reasons, List.of());
  }

  /** A grade, kept with its picture. */
  public static GradedFace of(
      FacePicture listed, String sha256, Criteria criteria, FaceGrade grade) {
    List<FibreOutcome> fibres =
        grade instanceof RowGrade row
            ? row.fibres().stream()
                .map(f -> new FibreOutcome(f.outcome(), f.close(), f.reasonTexts().get(0)))
                .toList()
            : List.of();
    return new GradedFace(
        listed,
        sha256,
        criteria.id(),
        grade.faceClass(),
        grade.outcome(),
        grade.close(),
        grade.reasonTexts(),
        fibres);
  }

  /**
   * What one fibre of those listed came to: its own outcome where each was told apart, that of the
   * whole picture where not.
   *
   * @param place of the fibre among those listed, from 0
   * @param listedFibres how many fibres the picture is listed for
   */
  public FibreOutcome fibre(int place, int listedFibres) {
    return fibres.size() == listedFibres && place < fibres.size()
        ? fibres.get(place)
        : new FibreOutcome(outcome, close, reasons.get(0));
  }

  /**
   * The reasons that speak of one fibre of those listed; those of the whole picture where no fibre
   * was told apart.
   *
   * @param place of the fibre among those listed, from 0
   * @param listedFibres how many fibres the picture is listed for
   */
  public List<String> reasonsOf(int place, int listedFibres) {
    if (fibres.size() != listedFibres || place >= fibres.size()) {
      return reasons;
    }
    String head = Grading.fibreHead(place + 1);
    return reasons.stream()
        .filter(reason -> reason.startsWith(head))
        .map(reason -> reason.substring(head.length()))
        .toList();
  }
}
