package ferrule.core.face;

/** Rings about the fibre's centre, from the inside out. */
public enum Zone {
  /** Where the light is. */
  A("core"),
  /** The rest of the glass. */
  B("cladding"),
  /** The glue that holds the fibre. */
  C("adhesive"),
  /** Where two ferrules touch. */
  D("contact");

  private final String named;

  Zone(String named) {
    this.named = named;
  }

  /** "zone B (cladding)". */
  public String shown() {
    return "zone " + name() + " (" + named + ")";
  }
}
