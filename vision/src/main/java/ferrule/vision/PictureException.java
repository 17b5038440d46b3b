package ferrule.vision;

/** A file that gives no picture. The message is one line: what was expected, what was found. */
public final class PictureException extends Exception {
  /** One line without a full stop. */
  public PictureException(String message) {
    super(message);
  }
}
