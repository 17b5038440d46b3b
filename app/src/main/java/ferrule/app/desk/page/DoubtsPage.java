package ferrule.app.desk.page;

import java.util.List;

/**
 * Every doubt, those that block first.
 *
 * @param frame what surrounds it
 * @param doubts one page of them
 * @param blocking how many block
 * @param refused what of the address was not understood
 */
public record DoubtsPage(
    Frame frame, Pager<DoubtEntry> doubts, long blocking, List<String> refused) {

  /** Doubts on one page. */
  public static final int DOUBTS_A_PAGE = 25;

  /** Puts the page together. */
  public static DoubtsPage of(String jobName, JobIndex index, int page, List<String> refused) {
    return new DoubtsPage(
        new Frame(jobName, Frame.Section.DOUBTS, "Doubts"),
        Pager.of(index.doubts(), DOUBTS_A_PAGE, page),
        index.doubts().stream().filter(d -> d.doubt().blocking()).count(),
        refused);
  }
}
