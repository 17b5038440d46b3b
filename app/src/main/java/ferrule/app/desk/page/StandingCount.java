package ferrule.app.desk.page;

import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Standing;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * How many fibres stand where.
 *
 * @param standing where
 * @param count how many
 * @param of out of how many
 */
public record StandingCount(Standing standing, int count, int of) {

  /** Counts fibres; standings that do not occur are left out. */
  public static List<StandingCount> of(List<FibreJudgement> fibres) {
    Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
    fibres.forEach(f -> counts.merge(f.standing(), 1, Integer::sum));
    List<StandingCount> found = new ArrayList<>();
    counts.forEach(
        (standing, count) -> found.add(new StandingCount(standing, count, fibres.size())));
    return found;
  }

  /** "40 are proved, 3 failed and 2 open". */
  public static String sentence(List<StandingCount> counts) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < counts.size(); i++) {
      text.append(i == 0 ? "" : i == counts.size() - 1 ? " and " : ", ")
          .append(counts.get(i).count())
          .append(i > 0 ? " " : counts.get(i).count() == 1 ? " is " : " are ")
          .append(counts.get(i).standing().word());
    }
    return text.toString();
  }

  /** Its share, 0 to 1. */
  public double share() {
    return (double) count / of;
  }
}
