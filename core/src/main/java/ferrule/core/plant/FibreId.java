package ferrule.core.plant;

import java.util.Optional;
import java.util.regex.Pattern;

/**
 * One fibre of one link, written "K014/2".
 *
 * @param link id of the link
 * @param fibre number within the link, from 1
 */
public record FibreId(String link, int fibre) {

  private static final Pattern NUMBER = Pattern.compile("[1-9][0-9]{0,5}");

  /**
   * The fibre written "K014/2"; the id of its link may hold slashes itself. Empty if it is none.
   */
  public static Optional<FibreId> ofWritten(String text) {
    int slash = text.lastIndexOf('/');
    String number = text.substring(slash + 1);
    return slash > 0 && NUMBER.matcher(number).matches()
        ? Optional.of(new FibreId(text.substring(0, slash), Integer.parseInt(number)))
        : Optional.empty();
  }

  @Override
  public String toString() {
    return link + "/" + fibre;
  }
}
