package ferrule.core.face;

import java.util.List;

/**
 * The grade of a ferrule with a row of fibres.
 *
 * @param fibres grade of each place from left to right
 * @param outcome of the ferrule: unreadable unless all fibres could be graded; otherwise rejected
 *     if one of them is
 * @param close whether any fibre is close
 * @param reasons why, each with the number of its fibre; at least one
 */
public record RowGrade(
    List<Grade> fibres, FaceOutcome outcome, boolean close, List<GradeReason> reasons)
    implements FaceGrade {

  /** Copies the lists. */
  public RowGrade {
    fibres = List.copyOf(fibres);
    reasons = List.copyOf(reasons);
  }

  @Override
  public FaceClass faceClass() {
    return fibres.get(0).faceClass();
  }

  @Override
  public String edition() {
    return fibres.get(0).edition();
  }

  @Override
  public boolean resolutionOk() {
    return fibres.stream().allMatch(Grade::resolutionOk);
  }
}
