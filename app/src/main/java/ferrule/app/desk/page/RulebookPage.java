package ferrule.app.desk.page;

import ferrule.core.job.Requirement;
import ferrule.core.rulebook.FigureGroup;
import java.util.List;

/**
 * The figures a job is judged by, with their sources.
 *
 * @param frame what surrounds it
 * @param requirement what must be met, and the rulebook
 * @param tables the figures
 */
public record RulebookPage(Frame frame, Requirement requirement, List<FigureGroup> tables) {

  /** Puts the page together. */
  public static RulebookPage of(String jobName, JobIndex index) {
    Requirement requirement = index.judgement().ledger().requirement();
    return new RulebookPage(
        new Frame(jobName, Frame.Section.RULEBOOK, "Rulebook"),
        requirement,
        FigureGroup.of(requirement.rulebook()));
  }
}
