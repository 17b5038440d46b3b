package ferrule.record.audit;

import ferrule.core.Problem;

/**
 * One thing in which a record is not what it should be.
 *
 * @param kind of difference
 * @param file of the record
 * @param line of that file, from 1; 0 if no single line is to blame
 * @param place what it is about: "L02/2, A-B 1310 nm, limit_db"; empty if it is the file
 * @param says what the record says there, or what is wrong
 * @param follows what follows from the entries; empty if that is not the point
 */
public record Difference(
    Kind kind, String file, long line, String place, String says, String follows) {

  /** Kinds of difference. */
  public enum Kind {
    /** The signature does not fit, is missing, or is of another key. */
    SIGNATURE("signature"),
    /** A file is not the one that was hashed. */
    CHANGED("changed"),
    /** A file that should be there is not. */
    MISSING("missing"),
    /** A file that should not be there is. */
    EXTRA("extra"),
    /** The entries are not one whole chain. */
    CHAIN("chain"),
    /** What the record says does not follow from its entries. */
    DIFFERS("differs");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** In JSON. */
    public String word() {
      return word;
    }
  }

  /** Cuts long texts and takes out what would spoil a terminal. */
  public Difference {
    file = Problem.printable(file);
    place = Problem.printable(place);
    follows = Problem.printable(follows);
  }

  /** The line shown to the user. */
  public String shown() {
    StringBuilder text = new StringBuilder(file);
    if (line > 0) {
      text.append(", line ").append(line);
    }
    if (!place.isEmpty()) {
      text.append(", ").append(place);
    }
    text.append(": ");
    if (kind == Kind.DIFFERS) {
      text.append("the record says ").append(quoted(says)).append("; ").append(quoted(follows));
      return text.append(" follows").toString();
    }
    text.append(says);
    if (!follows.isEmpty()) {
      text.append("; ").append(quoted(follows)).append(" follows");
    }
    return text.toString();
  }

  static String quoted(String text) {
    return text.isEmpty() ? "nothing" : Problem.printable(text);
  }
}
