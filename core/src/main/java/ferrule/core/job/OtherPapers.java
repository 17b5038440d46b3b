package ferrule.core.job;

import ferrule.core.rulebook.Rulebook;
import java.util.List;

/**
 * What the owner's papers say beside the requirement. Nothing is judged by it: the plan holds it
 * against the requirement and asks where the two differ.
 *
 * @param rulebooks other rulebooks that the papers name
 * @param methodAsWritten how the papers name the method, letter for letter: "Method B"; empty if
 *     they count cords
 * @param traces for which links traces of a time-domain reflectometer are asked
 */
public record OtherPapers(List<Rulebook> rulebooks, String methodAsWritten, Traces traces) {

  /** Links for which traces are asked. */
  public enum Traces {
    /** None, or not a word about them. */
    NONE("none"),
    /** Links with splices. */
    SPLICED("spliced"),
    /** Every link. */
    ALL("all");

    private final String word;

    Traces(String word) {
      this.word = word;
    }

    /** As the job file writes it. */
    public String word() {
      return word;
    }
  }

  /** Papers that say nothing else. */
  public static final OtherPapers SILENT = new OtherPapers(List.of(), "", Traces.NONE);

  /** Copies the list. */
  public OtherPapers {
    rulebooks = List.copyOf(rulebooks);
  }
}
