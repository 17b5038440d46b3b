package ferrule.app.desk.page;

/**
 * A page that says in plain words why there is nothing else to see.
 *
 * @param frame what surrounds it
 * @param message one or two sentences
 * @param todo what to do, one sentence
 */
public record MessagePage(Frame frame, String message, String todo) {

  /** Puts the page together. */
  public static MessagePage of(String jobName, String title, String message, String todo) {
    return new MessagePage(new Frame(jobName, Frame.Section.NONE, title), message, todo);
  }
}
