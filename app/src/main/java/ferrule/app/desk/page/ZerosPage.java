package ferrule.app.desk.page;

import ferrule.core.trust.ZeroTrust;
import java.util.List;

/**
 * Every zero with its trust.
 *
 * @param frame what surrounds it
 * @param zeros one page of them, in the order on record
 * @param refused what of the address was not understood
 */
public record ZerosPage(Frame frame, Pager<ZeroTrust> zeros, List<String> refused) {

  /** Zeros on one page. */
  public static final int ZEROS_A_PAGE = 40;

  /** Puts the page together. */
  public static ZerosPage of(String jobName, JobIndex index, int page, List<String> refused) {
    return new ZerosPage(
        new Frame(jobName, Frame.Section.ZEROS, "Zeros"),
        Pager.of(index.judgement().zeros(), ZEROS_A_PAGE, page),
        refused);
  }
}
