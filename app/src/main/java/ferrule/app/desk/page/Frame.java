package ferrule.app.desk.page;

/**
 * What surrounds every page.
 *
 * @param jobName name of the job
 * @param section which part of the desk the page belongs to
 * @param title of the page
 */
public record Frame(String jobName, Section section, String title) {

  /** The parts of the desk, in the order of the navigation. */
  public enum Section {
    /** Where the job stands and what to do next. */
    TODAY("Today", "/"),
    /** Readings typed at a port. */
    ENTER("Enter readings", "/enter"),
    /** Links and their fibres. */
    LINKS("Links", "/links"),
    /** Zeros. */
    ZEROS("Zeros", "/zeros"),
    /** Doubts. */
    DOUBTS("Doubts", "/doubts"),
    /** Before the first test. */
    PLAN("Plan", "/plan"),
    /** What the links carry. */
    APPLICATIONS("Applications", "/applications"),
    /** Another rulebook, rule or method. */
    WHAT_IF("What if", "/what-if"),
    /** Figures and their sources. */
    RULEBOOK("Rulebook", "/rulebook"),
    /** No part: a message. */
    NONE("", "");

    private final String word;
    private final String address;

    Section(String word, String address) {
      this.word = word;
      this.address = address;
    }

    /** Its name in the navigation; empty if it is not there. */
    public String word() {
      return word;
    }

    /** Where it begins. */
    public String address() {
      return address;
    }
  }
}
