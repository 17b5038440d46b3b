package ferrule.app.desk.page;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Fibres of which the same cases are covered. The groups of a reach together name it exactly, in
 * far fewer words than a list of readings.
 *
 * @param cases "1310 nm A-B, 1550 nm A-B"; "no reading to name" for fibres without one
 * @param fibres how many
 * @param readings how many readings
 * @param spans the fibres
 */
public record ReachGroup(String cases, int fibres, int readings, List<FibreSpan> spans) {

  /** Copies the list. */
  public ReachGroup {
    spans = List.copyOf(spans);
  }

  /** The groups of a doubt's reach. */
  public static List<ReachGroup> of(Ledger ledger, Reach reach) {
    Map<FibreId, Set<String>> cases = new LinkedHashMap<>();
    Map<FibreId, Integer> counts = new LinkedHashMap<>();
    for (FibreId fibre : reach.fibres()) {
      cases.put(fibre, new LinkedHashSet<>());
    }
    for (AssessedReading reading : reach.readings()) {
      FibreId fibre = reading.reading().fibreId();
      cases.computeIfAbsent(fibre, k -> new LinkedHashSet<>()).add(reading.caseShown());
      counts.merge(fibre, 1, Integer::sum);
    }
    Map<String, List<FibreId>> groups = new LinkedHashMap<>();
    cases.forEach(
        (fibre, covered) ->
            groups
                .computeIfAbsent(
                    covered.isEmpty()
                        ? "no reading to name"
                        : String.join(", ", covered.stream().sorted().toList()),
                    k -> new ArrayList<>())
                .add(fibre));
    List<ReachGroup> found = new ArrayList<>();
    groups.forEach(
        (text, fibres) ->
            found.add(
                new ReachGroup(
                    text,
                    fibres.size(),
                    fibres.stream().mapToInt(f -> counts.getOrDefault(f, 0)).sum(),
                    FibreSpan.of(ledger, fibres))));
    return found;
  }
}
