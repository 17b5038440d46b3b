package ferrule.core.trust.paper;

import ferrule.core.plant.FeedTree;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * {@code paper-conflict}: links whose feeders lead to no head. It blocks, for without a path there
 * is no telling what their readings went through, nor what they may lose.
 */
public final class FeedFinder implements DoubtFinder {

  /** What keys of deeds about feeders begin with. */
  public static final String KEY = "feed:";

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    List<FeedTree.Fault> faults = FeedTree.faults(ledger.job().links());
    if (faults.isEmpty()) {
      return;
    }
    Map<String, Link> links = new HashMap<>();
    ledger.job().links().forEach(link -> links.put(link.id(), link));
    for (FeedTree.Fault fault : faults) {
      List<AssessedReading> readings = new ArrayList<>();
      List<FibreId> fibres = new ArrayList<>();
      for (String id : fault.reach()) {
        Link link = links.get(id);
        for (FibreId fibre : link == null ? List.<FibreId>of() : link.fibreIds()) {
          fibres.add(fibre);
          ledger.readings(ledger.slotOf(fibre)).stream()
              .filter(AssessedReading::current)
              .forEach(readings::add);
        }
      }
      out.accept(
          new Doubt(
              DoubtKind.PAPER_CONFLICT,
              Subject.JOB,
              true,
              new Reach(readings, fibres),
              List.of(
                  Evidence.of(
                      "what",
                      "link "
                          + fault.link()
                          + " has no path to a head: expected "
                          + fault.expected()
                          + ", found "
                          + fault.found()),
                  Evidence.of("fibres", fibres.size())),
              Causes.ranked("a slip in the schedule", "a link is missing from the schedule"),
              new NextStep(
                      KEY + fault.link(),
                      "Find out what feeds link " + fault.link() + " and put fed_by right",
                      "",
                      Handling.LOOK_UP)
                  .withResults(
                      "The schedule is put right and the path is known",
                      "Nobody knows what feeds it: trace it back from its end")));
    }
  }
}
