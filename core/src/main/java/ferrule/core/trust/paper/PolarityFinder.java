package ferrule.core.trust.paper;

import ferrule.core.array.ArrayLink;
import ferrule.core.array.JobArrays;
import ferrule.core.array.PolarityCheck;
import ferrule.core.array.TransmitReceive;
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
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/**
 * {@code polarity}: positions that came out elsewhere than the parts lead them.
 *
 * <p>It blocks: between which two ends a reading of such a position was taken cannot be said until
 * the parts or the map are put right. All other positions of the link stand as they are.
 */
public final class PolarityFinder implements DoubtFinder {

  private static final int MOST_TOLD = 6;

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    if (ledger.job().positions().isEmpty()) {
      return;
    }
    JobArrays arrays = new JobArrays(ledger.job().parts(), ledger.job().positions());
    for (Link link : ledger.job().links()) {
      ArrayLink parts = arrays.link(link.id()).orElse(null);
      PolarityCheck check = arrays.check(link.id()).orElse(null);
      if (parts != null && check != null && !check.agrees()) {
        out.accept(doubt(ledger, link, arrays, parts, check));
      }
    }
  }

  private static Doubt doubt(
      Ledger ledger, Link link, JobArrays arrays, ArrayLink parts, PolarityCheck check) {
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", few(check.arrivals())));
    evidence.add(Evidence.of("positions_astray", check.astray().size()));
    evidence.add(Evidence.of("positions_read", arrays.read(link.id())));
    if (check.told()) {
      evidence.add(Evidence.of("faulty_part", check.suspects().get(0)));
    } else if (!check.suspects().isEmpty()) {
      evidence.add(Evidence.of("would_explain", few(check.suspects())));
    }
    arrays
        .measured(link.id())
        .map(map -> TransmitReceive.of(parts, map))
        .ifPresent(
            result ->
                evidence.add(
                    Evidence.of("transmit_receive", result.result().word() + ": " + result.why())));
    evidence.add(
        Evidence.of("colours", "named in the order of TIA-598; cables may follow another"));
    return new Doubt(
        DoubtKind.POLARITY,
        Subject.link(link.id()),
        true,
        reach(ledger, link, check),
        evidence,
        check.suspects().isEmpty()
            ? Causes.ranked(
                "more than one part is not as written",
                "the map was noted down wrong",
                "a part is missing from the list")
            : Causes.ranked(check.suspects().stream().limit(MOST_TOLD).toArray(String[]::new)),
        new NextStep("polarity:" + link.id(), check.check(), link.a().where(), Handling.IDENTIFY)
            .withResults(check.confirms(), check.refutes()));
  }

  private static String few(List<String> texts) {
    return texts.stream().limit(MOST_TOLD).collect(Collectors.joining("; "))
        + (texts.size() > MOST_TOLD ? "; and " + (texts.size() - MOST_TOLD) + " more" : "");
  }

  private static Reach reach(Ledger ledger, Link link, PolarityCheck check) {
    List<AssessedReading> readings = new ArrayList<>();
    List<FibreId> fibres = new ArrayList<>();
    for (int position : check.astray()) {
      if (position <= link.fibres()) {
        FibreId fibre = new FibreId(link.id(), position);
        fibres.add(fibre);
        ledger.readings(ledger.slotOf(fibre)).stream()
            .filter(AssessedReading::current)
            .forEach(readings::add);
      }
    }
    return new Reach(readings, fibres);
  }
}
