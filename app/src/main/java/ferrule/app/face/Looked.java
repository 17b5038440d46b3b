package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceGrade;

/** What became of one file that was to be a picture of an end face. */
public sealed interface Looked {

  /** The file, as the user named it. */
  String picture();

  /**
   * A picture that was graded, if only as unreadable.
   *
   * @param picture file as the user named it
   * @param sha256 of its bytes, lower-case hex
   * @param face what was seen
   * @param grade what it came to
   */
  record Graded(String picture, String sha256, Examined face, FaceGrade grade) implements Looked {}

  /**
   * A file that is no picture.
   *
   * @param picture file as the user named it
   * @param problem why
   */
  record Unusable(String picture, Problem problem) implements Looked {}
}
