package ferrule.app.desk.page;

import ferrule.core.trust.Standing;
import ferrule.core.trust.Trust;

/**
 * The upright band in the margin: its form says the standing before its colour does.
 *
 * @param form the standing whose form it has
 * @param word shown beside it, always
 */
public record Band(Standing form, String word) {

  private static final int HEIGHT = 40;

  /** Of a fibre. */
  public static Band of(Standing standing) {
    return new Band(standing, standing.word());
  }

  /** Of a zero: sound ones solid, broken ones broken, doubtful ones hatched, ageing ones hollow. */
  public static Band of(Trust trust) {
    Standing like =
        switch (trust) {
          case FRESH, VERIFIED -> Standing.PROVED;
          case AGEING -> Standing.OPEN;
          case DOUBTFUL -> Standing.DOUBTFUL;
          case BROKEN -> Standing.FAILED;
        };
    return new Band(like, trust.word());
  }

  /** Of a doubt: hatched if it blocks, hollow if not. */
  public static Band ofDoubt(boolean blocking) {
    return blocking
        ? new Band(Standing.DOUBTFUL, "blocking")
        : new Band(Standing.OPEN, "not blocking");
  }

  /** The drawing. */
  public String svg() {
    return ferrule.record.chart.Band.svg(form, HEIGHT);
  }
}
