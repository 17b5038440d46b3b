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
    List<Grade> fibres, FaceOutcome outcome, boolean close, List<GradeReason> reasons) {

  /** Copies the lists. */
  public RowGrade {
    fibres = List.copyOf(fibres);
    reasons = List.copyOf(reasons);
  }

  /** The reasons as plain sentences. */
  public List<String> reasonTexts() {
    return reasons.stream().map(GradeReason::text).toList();
  }
}
