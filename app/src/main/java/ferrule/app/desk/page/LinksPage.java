package ferrule.app.desk.page;

import ferrule.record.chart.LossScale;
import java.util.List;

/**
 * Fibres, filtered and cut into pages.
 *
 * @param frame what surrounds it
 * @param filter what is shown
 * @param places to choose from
 * @param fibres one page of them
 * @param all how many the job has
 * @param scale that all loss strips of the page share
 */
public record LinksPage(
    Frame frame,
    LinkFilter filter,
    List<String> places,
    Pager<FibreEntry> fibres,
    int all,
    LossScale scale) {

  /** Fibres on one page. */
  public static final int FIBRES_A_PAGE = 50;

  /** Puts the page together. */
  public static LinksPage of(String jobName, JobIndex index, LinkFilter filter) {
    List<FibreEntry> passed =
        filter.apply(index.judgement().fibres()).stream().map(FibreEntry::new).toList();
    Pager<FibreEntry> page = Pager.of(passed, FIBRES_A_PAGE, filter.page());
    return new LinksPage(
        new Frame(jobName, Frame.Section.LINKS, "Links"),
        filter,
        index.places(),
        page,
        index.judgement().fibres().size(),
        FibreEntry.scale(page.items()));
  }

  /** Whether a limit on this page rests on a figure from memory. */
  public boolean anyFromMemory() {
    return fibres.items().stream().anyMatch(FibreEntry::limitFromMemory);
  }
}
