package ferrule.record.page;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.FibreRanges;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Reach;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** The reach of a doubt in few words that still name it exactly. */
final class ReachText {

  /** More ranges than this are counted, not listed; the data files have them all. */
  private static final int MOST_RANGES = 60;

  private ReachText() {}

  /**
   * One line for each group of fibres that are covered alike: "all readings of K001/1-12", "K003/2:
   * 1310 nm A-B".
   */
  static List<String> lines(Judgement judgement, Reach reach) {
    Map<FibreId, List<AssessedReading>> covered = new LinkedHashMap<>();
    reach.fibres().forEach(f -> covered.put(f, new ArrayList<>()));
    for (AssessedReading reading : reach.readings()) {
      covered.computeIfAbsent(reading.reading().fibreId(), k -> new ArrayList<>()).add(reading);
    }
    Map<String, List<FibreId>> groups = new LinkedHashMap<>();
    covered.forEach(
        (fibre, readings) ->
            groups
                .computeIfAbsent(cases(judgement, fibre, readings), k -> new ArrayList<>())
                .add(fibre));
    List<String> lines = new ArrayList<>();
    groups.forEach(
        (cases, fibres) -> {
          String ranges = FibreRanges.shown(fibres, MOST_RANGES);
          lines.add(
              switch (cases) {
                case "" -> "fibres without a reading to name: " + ranges;
                case "all" -> "every reading of " + ranges;
                default -> cases + " of " + ranges;
              });
        });
    return lines;
  }

  private static String cases(Judgement judgement, FibreId fibre, List<AssessedReading> readings) {
    if (readings.isEmpty()) {
      return "";
    }
    int slot = judgement.ledger().slotOf(fibre);
    long counting =
        slot < 0
            ? -1
            : judgement.ledger().readings(slot).stream().filter(AssessedReading::current).count();
    if (counting == readings.size()) {
      return "all";
    }
    TreeSet<String> cases = new TreeSet<>();
    readings.forEach(r -> cases.add(r.caseShown()));
    return String.join(", ", cases);
  }
}
