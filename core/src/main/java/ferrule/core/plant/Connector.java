package ferrule.core.plant;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A connector: its family and how its end face is polished, written "LC-UPC" or "SC-APC".
 *
 * @param family interface family, upper case: LC, SC, ST, FC, MPO and others
 * @param polish how the end face is polished
 */
public record Connector(String family, Polish polish) {

  private static final Pattern FAMILY = Pattern.compile("[A-Z][A-Z0-9/]{0,11}");

  /** How an end face is polished. */
  public enum Polish {
    /** Physical contact, straight. */
    PC,
    /** Physical contact, straight, finer finish. */
    UPC,
    /** Physical contact, angled. */
    APC;

    /** An angled face meets a straight one across a wedge of air: never mate them. */
    public boolean angled() {
      return this == APC;
    }
  }

  /** Reads "LC-UPC"; empty if it is not a family and one of PC, UPC, APC. */
  public static Optional<Connector> parse(String text) {
    String upper = text.strip().toUpperCase(Locale.ROOT);
    int dash = upper.lastIndexOf('-');
    if (dash <= 0) {
      return Optional.empty();
    }
    String family = upper.substring(0, dash);
    if (!FAMILY.matcher(family).matches()) {
      return Optional.empty();
    }
    return switch (upper.substring(dash + 1)) {
      case "PC" -> Optional.of(new Connector(family, Polish.PC));
      case "UPC" -> Optional.of(new Connector(family, Polish.UPC));
      case "APC" -> Optional.of(new Connector(family, Polish.APC));
      default -> Optional.empty();
    };
  }

  /** Whether one ferrule holds a row of fibres, all mated at once. */
  public boolean isArray() {
    return family.equals("MPO") || family.equals("MT");
  }

  /** Whether both have the same family, so that an adapter joins them. */
  public boolean sameFamily(Connector other) {
    return family.equals(other.family);
  }

  /** Whether the two may be mated: same family, both straight or both angled. */
  public boolean mates(Connector other) {
    return sameFamily(other) && polish.angled() == other.polish.angled();
  }

  @Override
  public String toString() {
    return family + "-" + polish;
  }
}
