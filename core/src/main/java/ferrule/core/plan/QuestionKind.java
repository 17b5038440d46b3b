package ferrule.core.plan;

/** What a question to the owner is about. The ids are a contract: add, never rename. */
public enum QuestionKind {
  /** The papers name a second rulebook, under which links would have other limits. */
  TWO_RULEBOOKS("two-rulebooks"),
  /** The papers name the method by a letter or a number, or by another count of cords. */
  METHOD_NAME("method-name"),
  /** The links' ends do not allow the method. */
  METHOD_ENDS("method-ends"),
  /** The kit does not allow the method. */
  METHOD_KIT("method-kit"),
  /** No instrument of the kit does a wavelength. */
  KIT_WAVELENGTH("kit-wavelength"),
  /** A wavelength that the rulebook has no limit for. */
  WAVELENGTH("wavelength"),
  /** Something in the links that the rulebook has no limit for. */
  NO_LIMIT("no-limit"),
  /** Good work loses more than the limit allows. */
  LIMIT_TIGHT("limit-tight"),
  /** An application allows less loss than the cabling's limit. */
  APPLICATION_LIMIT("application-limit"),
  /** A link loses less than a receiver of an application stands. */
  APPLICATION_LEAST("application-least-loss"),
  /** A link is longer than an application reaches. */
  APPLICATION_LENGTH("application-length"),
  /** Traces are asked of links too short to show anything. */
  TRACES_SHORT("traces-short"),
  /** One direction is asked of links with splices. */
  DIRECTIONS_SPLICED("directions-spliced"),
  /** A cord's connectors fit no link, or a link's no cord. */
  CORD_CONNECTOR("cord-connector"),
  /** Straight is to meet angled. */
  CORD_POLISH("cord-polish"),
  /** A cord's core is not the links'. */
  CORD_FIBRE("cord-fibre"),
  /** A cord of ordinary grade would stand at the link. */
  CORD_GRADE("cord-grade"),
  /** A certificate is out of date on the planned day, or contradicts itself. */
  CERTIFICATE("certificate"),
  /** Lengths that look like feet among metres. */
  LENGTH_UNIT("length-unit"),
  /** A zero on record contradicts itself, the kit or the requirement. */
  ZERO_PAPERS("zero-papers"),
  /** What feeds a link of a tree leads to no head. */
  FEED_PATH("feed-path"),
  /** Two ends within an array link do not fit each other, or its parts not the link. */
  ARRAY_MATING("array-mating"),
  /** The parts of an array link do not bring transmit to receive. */
  TRANSMIT_RECEIVE("transmit-receive");

  private final String id;

  QuestionKind(String id) {
    this.id = id;
  }

  /** As JSON writes it. */
  public String id() {
    return id;
  }
}
