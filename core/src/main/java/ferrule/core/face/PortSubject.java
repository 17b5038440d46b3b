package ferrule.core.face;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a picture of a link end shows: "port:C:01/1" is fibre 1 at port C:01, "port:M:3/1-12" a row
 * of fibres in one ferrule.
 *
 * @param port as the schedule names it, alone or with its place: "C:01", "Cellar / C:01"
 * @param first first fibre, from 1
 * @param last last fibre, no less than the first
 */
public record PortSubject(String port, int first, int last) {

  private static final Pattern FORM =
      Pattern.compile("port:(.+)/([1-9][0-9]{0,3})(?:-([1-9][0-9]{0,3}))?");

  /** Reads a subject; empty if it is not that of a port. */
  public static Optional<PortSubject> of(String subject) {
    Matcher found = FORM.matcher(subject);
    if (!found.matches()) {
      return Optional.empty();
    }
    int first = Integer.parseInt(found.group(2));
    int last = found.group(3) == null ? first : Integer.parseInt(found.group(3));
    return last < first
        ? Optional.empty()
        : Optional.of(new PortSubject(found.group(1), first, last));
  }

  /** How many fibres it names. */
  public int fibres() {
    return last - first + 1;
  }
}
