package ferrule.core.trust;

import ferrule.core.plant.FibreId;

/**
 * What a doubt is about.
 *
 * @param type what sort of thing
 * @param id its name; "job" for the job itself
 */
public record Subject(Type type, String id) {

  /** Sorts of things that can be doubted. */
  public enum Type {
    /** One fibre, "K014/2". */
    FIBRE("fibre"),
    /** A link. */
    LINK("link"),
    /** A zero. */
    REFERENCE("zero"),
    /** A test cord. */
    CORD("cord"),
    /** A source or meter. */
    INSTRUMENT("instrument"),
    /** A room, rack or panel. */
    PLACE("place"),
    /** The job as a whole. */
    JOB("job");

    private final String word;

    Type(String word) {
      this.word = word;
    }

    /** The word shown before the name. */
    public String word() {
      return word;
    }
  }

  /** The job itself. */
  public static final Subject JOB = new Subject(Type.JOB, "job");

  /** A fibre. */
  public static Subject fibre(FibreId fibre) {
    return new Subject(Type.FIBRE, fibre.toString());
  }

  /** A link. */
  public static Subject link(String id) {
    return new Subject(Type.LINK, id);
  }

  /** A zero. */
  public static Subject reference(String id) {
    return new Subject(Type.REFERENCE, id);
  }

  /** "zero R2", "fibre K014/2", "the job". */
  public String shown() {
    return type == Type.JOB ? "the job" : type.word() + " " + id;
  }
}
