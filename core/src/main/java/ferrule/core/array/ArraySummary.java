package ferrule.core.array;

import java.util.ArrayList;
import java.util.List;

/**
 * An array link in a few lines, for readers.
 *
 * @param link its id
 * @param parts "cassette 1A, straight", from end A on
 * @param method "connectivity method A", or that it is none with a name
 * @param map "1>1 2>2", or its name; or why it cannot be told
 * @param transmit whether transmit meets receive by the parts
 * @param measured what the measured map says of it, one clause
 */
public record ArraySummary(
    String link,
    List<String> parts,
    String method,
    String map,
    TransmitReceive transmit,
    String measured) {

  /** Copies the list. */
  public ArraySummary {
    parts = List.copyOf(parts);
  }

  /** The lines of a link; the check is that of {@link JobArrays#check}. */
  static ArraySummary of(ArrayLink link, JobArrays arrays) {
    List<String> parts = new ArrayList<>();
    for (ArrayPart part : link.parts()) {
      parts.add(part.named() + ", " + part.typeShown());
    }
    return new ArraySummary(
        link.id(),
        parts,
        link.method().isEmpty()
            ? "no connectivity method of A, B, C, U1 or U2"
            : "connectivity method "
                + link.method()
                + (link.method().startsWith("U")
                    ? " (from memory: confirm against the standard)"
                    : ""),
        link.map().map(ArraySummary::shown).orElseGet(() -> "cannot be told: " + link.unknown()),
        TransmitReceive.of(link),
        measured(link, arrays));
  }

  private static String shown(PositionMap map) {
    MapType type = MapType.of(map);
    return type == MapType.LISTED ? map.toString() : type.word();
  }

  private static String measured(ArrayLink link, JobArrays arrays) {
    PolarityCheck check = arrays.check(link.id()).orElse(null);
    if (check == null) {
      return "not measured";
    }
    String read = arrays.read(link.id()) + " of " + link.positions() + " positions read";
    if (link.map().isEmpty()) {
      return read + ", nothing to compare with";
    }
    if (check.agrees()) {
      return read + ", all as computed";
    }
    return read
        + ", "
        + check.astray().size()
        + " elsewhere than computed"
        + (check.told() ? ": " + check.suspects().get(0) : "");
  }
}
