package ferrule.core.face;

import java.util.Optional;

/**
 * What became of one flaw between two pictures of one face.
 *
 * @param kind what became of it
 * @param before as seen before; empty if it is new
 * @param after as seen after, in the places of the later picture; empty if it was cleaned away
 */
public record FlawChange(Kind kind, Optional<Flaw> before, Optional<Flaw> after) {

  /** What can become of a flaw. The words are a contract: add, never rename. */
  public enum Kind {
    /** Seen before and no longer: it was dirt. */
    CLEANED_AWAY("cleaned away"),
    /** A defect of the same size and tone lies elsewhere: loose dirt. */
    MOVED("moved"),
    /** At the same place: damage, or dirt that holds on. */
    STAYED("stayed"),
    /** Not seen before. */
    NEW("new");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** The word in sentences and in JSON. */
    public String word() {
      return word;
    }
  }

  /** One sentence without a full stop, with what it means for the work. */
  public String shown() {
    Flaw flaw = after.or(() -> before).orElseThrow();
    boolean scratch = flaw.kind() == FlawKind.SCRATCH;
    String what =
        (scratch ? "Scratch " : "Defect of ")
            + Microns.shown(flaw.sizeUm())
            + (scratch ? " µm wide" : " µm")
            + " at x "
            + Microns.shown(flaw.xUm())
            + ", y "
            + Microns.shown(flaw.yUm())
            + " µm "
            + kind.word();
    return what
        + switch (kind) {
          case CLEANED_AWAY -> scratch ? ": a line of dirt, no scratch" : ": it was dirt";
          case MOVED -> ": loose dirt, clean again";
          case STAYED ->
              scratch
                  ? ": permanent, not dirt"
                  : ": damage, or dirt that holds on; clean once more to tell";
          case NEW -> scratch ? ": damage done since" : ": dirt brought on, or damage done since";
        };
  }
}
