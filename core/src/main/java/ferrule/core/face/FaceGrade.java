package ferrule.core.face;

import java.util.List;

/** The grade of what one picture shows: one fibre, or a ferrule with a row of them. */
public sealed interface FaceGrade permits Grade, RowGrade {

  /** Class it was graded by. */
  FaceClass faceClass();

  /** Edition of the criteria: "2015". */
  String edition();

  /** What it came to. */
  FaceOutcome outcome();

  /** Whether the size of any flaw lies within its own uncertainty of a limit. */
  boolean close();

  /** Whether the picture can show the smallest flaw that must be seen, of every fibre. */
  boolean resolutionOk();

  /** Why, the weightiest first; at least one. */
  List<GradeReason> reasons();

  /** The reasons as plain sentences. */
  default List<String> reasonTexts() {
    return reasons().stream().map(GradeReason::text).toList();
  }
}
