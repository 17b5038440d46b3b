package ferrule.core.plant;

/**
 * One fibre of one link, written "K014/2".
 *
 * @param link id of the link
 * @param fibre number within the link, from 1
 */
public record FibreId(String link, int fibre) {
  @Override
  public String toString() {
    return link + "/" + fibre;
  }
}
