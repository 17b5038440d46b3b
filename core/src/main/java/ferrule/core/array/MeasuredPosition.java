package ferrule.core.array;

/**
 * One position of a measured map.
 *
 * @param link the link
 * @param position where light went in, counted at end A, from 1
 * @param arrivesAt where it came out; 0 if nowhere
 * @param after order of the part behind which it came out; 0 for the whole link
 */
public record MeasuredPosition(String link, int position, int arrivesAt, int after) {

  /** Whether no light came out. */
  public boolean dark() {
    return arrivesAt == 0;
  }
}
