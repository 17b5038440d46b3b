package ferrule.app.desk.page;

import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.JobApplications;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which applications the links of the job carry.
 *
 * @param frame what surrounds it
 * @param all every link against every application
 * @param families the table, by family
 * @param wanting links that are not shown to carry what the job wants, the first of them
 */
public record ApplicationsPage(
    Frame frame,
    JobApplications all,
    Map<String, List<JobApplications.Row>> families,
    List<ApplicationCheck> wanting) {

  /** Links listed under what is wanted. */
  public static final int MOST_WANTING = 100;

  /** Puts the page together. */
  public static ApplicationsPage of(String jobName, JobApplications all) {
    Map<String, List<JobApplications.Row>> families = new LinkedHashMap<>();
    for (JobApplications.Row row : JobApplications.rows(all.checks())) {
      families.computeIfAbsent(row.application().family(), k -> new ArrayList<>()).add(row);
    }
    return new ApplicationsPage(
        new Frame(jobName, Frame.Section.APPLICATIONS, "Applications"),
        all,
        families,
        all.wanting().stream().limit(MOST_WANTING).toList());
  }
}
